#include "model/planning/watch.h"

#include <algorithm>
#include <chrono>

namespace interlude::planning {

namespace {

constexpr double lookEvery = 0.0005; // seconds: well inside the 50 ms that a limit may be missed by
constexpr double tellEvery = 0.1;

double steadySeconds() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// Where other code has left the upper halves of the wide registers in use, every later instruction on the lower halves waits
/// for them: measured in the shipped command, moves took 2.5 times as long until they were cleared.
void clearWideRegisters() {
#if defined(__x86_64__) && !defined(__AVX__)
    static const bool wide = __builtin_cpu_supports("avx") != 0;
    if (wide)
        asm volatile("vzeroupper");
#endif
}

} // namespace

Watch::Watch(const SearchOptions& options) : m_options(options), m_now(options.clock) {
    if (!m_now)
        m_now = steadySeconds;
    m_begin = m_lastLook = m_lastTold = m_now();
    m_over = (options.iterations && *options.iterations <= 0) || (options.seconds && *options.seconds <= 0);
}

double Watch::used() const {
    if (m_options.iterations)
        return std::min(1.0, static_cast<double>(m_iterations) / static_cast<double>(*m_options.iterations));
    if (m_options.seconds)
        return std::min(1.0, m_elapsed / *m_options.seconds);
    return 0;
}

/// So many moves between two looks at the clock that they take about as long as wanted; only the pace of looking
/// depends on it, never what is tried.
void Watch::paceLooks() {
    const double now = m_now();
    const double took = now - m_lastLook;
    m_lastLook = now;
    m_elapsed = now - m_begin;
    if (took < lookEvery)
        m_step = std::min<std::int64_t>(m_step * 2, 1 << 20);
    else
        m_step = std::max<std::int64_t>(1, static_cast<std::int64_t>(static_cast<double>(m_step) * lookEvery / took));
    m_nextLook = m_iterations + m_step;
    if (m_options.iterations)
        m_nextLook = std::min(m_nextLook, *m_options.iterations);
}

bool Watch::goOn() {
    m_elapsed = m_now() - m_begin;
    if (m_options.seconds && m_elapsed >= *m_options.seconds)
        m_over = true;
    if (m_options.stop && m_options.stop())
        m_over = true;
    return !m_over;
}

void Watch::look() {
    paceLooks();
    if (m_options.iterations && m_iterations >= *m_options.iterations)
        m_over = true;
    goOn();
    tell();
    clearWideRegisters();
}

void Watch::tell() {
    if (!m_options.progress || !m_best || m_lastLook - m_lastTold < tellEvery)
        return;
    m_lastTold = m_lastLook;
    Progress p = m_best();
    p.seconds = m_elapsed;
    p.iterations = m_iterations;
    m_options.progress(p);
}

} // namespace interlude::planning
