#include "model/planning/least_work.h"

#include "model/planning/free_jobs.h"

#include <algorithm>

namespace interlude::planning {

namespace {

constexpr std::size_t mostAsked = 6'000'000;

Minute total(const std::vector<Work>& work) {
    Minute out = 0;
    for (const Work& w : work)
        out += w.minutes;
    return out;
}

} // namespace

LeastWorks::LeastWorks(const Problem& problem, Changes& changes, const std::vector<char>& placed)
    : m_problem(problem), m_table(problem, changes), m_pairwise(changes.pairwise()) {
    const std::vector<char> running = runningJobs(problem);
    m_indexOf.assign(problem.jobs.size(), 0);
    for (int j = 0; j < static_cast<int>(problem.jobs.size()); ++j) {
        const auto at = static_cast<std::size_t>(j);
        if (running[at] || at >= placed.size() || !placed[at])
            continue;
        m_indexOf[at] = m_jobs.size();
        m_jobs.push_back(j);
        for (int v = 0; v < static_cast<int>(problem.jobs[at].variants.size()); ++v)
            m_options.push_back(m_table.optionOf({j, v}));
    }
    PrinterLine line(m_table, Goal::Makespan);
    const std::size_t printers = problem.printers.size();
    m_least.assign(printers, std::vector<LeastWork>(static_cast<std::size_t>(m_table.options())));
    m_rowAfter.assign(printers, std::vector<int>(static_cast<std::size_t>(m_table.options()), -1));
    m_minutes.resize(printers);
    for (int p = 0; p < static_cast<int>(printers); ++p) {
        m_begin.push_back(line.begin(p));
        const PrinterNumbers& n = problem.printers[static_cast<std::size_t>(p)];
        const int job = n.session ? n.sessionJob : n.runningJob;
        const bool busy = n.session || n.partLies;
        m_counts.push_back(!busy || (job >= 0 && static_cast<std::size_t>(job) < placed.size() && placed[static_cast<std::size_t>(job)]) ? 1 : 0);
    }
    for (int p = 0; p < static_cast<int>(printers) && m_known; ++p)
        lookAtPrinter(p, changes);
}

/// Every state that can come up on the printer, one after the other; where states depend on the whole past only the
/// first look tells what a job needs at all, and its changeover counts as nothing.
void LeastWorks::lookAtPrinter(int printer, Changes& changes) {
    auto& least = m_least[static_cast<std::size_t>(printer)];
    if (!m_pairwise) {
        for (const int o : m_options) {
            LeastWork& w = least[static_cast<std::size_t>(o)];
            const Place& place = m_table.place(o);
            w.possible = m_table.printable(printer, o);
            if (w.possible)
                w.print = m_problem.jobs[static_cast<std::size_t>(place.job)]
                              .variants[static_cast<std::size_t>(place.variant)]
                              .print[static_cast<std::size_t>(printer)];
        }
        return;
    }
    std::vector<char> looked;
    std::vector<int> waiting{begin(printer).row};
    while (!waiting.empty() && m_known) {
        const int row = waiting.back();
        waiting.pop_back();
        looked.resize(std::max(looked.size(), static_cast<std::size_t>(row) + 1), 0);
        if (looked[static_cast<std::size_t>(row)])
            continue;
        looked[static_cast<std::size_t>(row)] = 1;
        lookAt(printer, row, changes);
        for (const int o : m_options) {
            const int next = m_rowAfter[static_cast<std::size_t>(printer)][static_cast<std::size_t>(o)];
            if (next >= 0 &&
                (static_cast<std::size_t>(next) >= looked.size() || !looked[static_cast<std::size_t>(next)]))
                waiting.push_back(next);
        }
    }
}

void LeastWorks::lookAt(int printer, int row, Changes& changes) {
    const auto p = static_cast<std::size_t>(printer);
    m_asked += m_options.size() * (m_problem.scarceNozzles ? 4 : 1);
    if (m_asked > mostAsked) {
        m_known = false;
        return;
    }
    auto& rows = m_minutes[p];
    rows.resize(std::max(rows.size(), static_cast<std::size_t>(row) + 1));
    auto& minutes = rows[static_cast<std::size_t>(row)];
    minutes.assign(static_cast<std::size_t>(m_table.options()), -1);
    const int state = m_table.stateOf(printer, row);
    for (const int o : m_options) {
        if (!m_table.printable(printer, o))
            continue;
        const Place& place = m_table.place(o);
        LeastWork& w = m_least[p][static_cast<std::size_t>(o)];
        for (int worn = 0; worn < (m_problem.scarceNozzles ? 4 : 1); ++worn) {
            const Change& c =
                changes.from(printer, state, place.job, place.variant, {(worn & 1) != 0, (worn & 2) != 0});
            if (!c.possible)
                continue;
            Minute& least = minutes[static_cast<std::size_t>(o)];
            least = least < 0 ? c.minutes : std::min(least, c.minutes);
            w.changeover = w.possible ? std::min(w.changeover, c.minutes) : c.minutes;
            w.material = w.possible ? std::min(w.material, c.material) : c.material;
            w.possible = true;
            w.print = m_problem.jobs[static_cast<std::size_t>(place.job)]
                          .variants[static_cast<std::size_t>(place.variant)]
                          .print[p];
            w.removal = total(changes.removal(printer, c.next));
            m_rowAfter[p][static_cast<std::size_t>(o)] = m_table.rowOf(printer, c.next);
        }
    }
}

std::vector<Minute> LeastWorks::arcs(bool withPrint) const {
    const std::size_t n = m_jobs.size(), rows = n + m_begin.size();
    std::vector<Minute> out(rows * n, -1);
    const auto take = [](Minute& to, Minute m) { to = to < 0 ? m : std::min(to, m); };
    for (int p = 0; p < printers(); ++p)
        for (std::size_t j = 0; j < n; ++j) {
            const int first = m_table.optionOf({m_jobs[j], 0});
            const int count = static_cast<int>(m_problem.jobs[static_cast<std::size_t>(m_jobs[j])].variants.size());
            for (int o = first; o < first + count; ++o) {
                const LeastWork& w = m_least[static_cast<std::size_t>(p)][static_cast<std::size_t>(o)];
                if (!w.possible)
                    continue;
                const Minute more = withPrint ? w.print + w.removal : 0;
                // Least from each state, then each job by the states that it can leave.
                if (const Minute m = minutes(p, begin(p).row, o); m >= 0)
                    take(out[(n + static_cast<std::size_t>(p)) * n + j], m + more);
                for (const int before : m_options) {
                    const int row = m_rowAfter[static_cast<std::size_t>(p)][static_cast<std::size_t>(before)];
                    if (row < 0 || m_table.jobOf(before) == m_jobs[j])
                        continue;
                    if (const Minute m = minutes(p, row, o); m >= 0)
                        take(out[m_indexOf[static_cast<std::size_t>(m_table.jobOf(before))] * n + j], m + more);
                }
            }
        }
    return out;
}

} // namespace interlude::planning
