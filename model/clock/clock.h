#pragma once
// The clock is passed in. Two readings are needed: the wall clock says what time people see; the running clock counts
// on through suspend and ignores adjustments, so that a jump of the wall clock is noticed by comparing the two.

#include "model/clock/instant.h"

namespace interlude {

class Clock {
public:
    virtual ~Clock() = default;
    /// What the wall clock says, in UTC.
    virtual Instant now() const = 0;
    /// Time since some fixed moment; never steps back, counts during suspend (CLOCK_BOOTTIME).
    virtual Milliseconds running() const = 0;
};

/// The machine's own clocks.
class SystemClock final : public Clock {
public:
    Instant now() const override;
    Milliseconds running() const override;
};

/// Another clock moved by a constant: example fleets live at their `example-clock`.
class ShiftedClock final : public Clock {
public:
    /// `base` is borrowed and must outlive this clock.
    ShiftedClock(const Clock& base, Milliseconds offset) : m_base(base), m_offset(offset) {}
    Instant now() const override { return m_base.now() + m_offset; }
    Milliseconds running() const override { return m_base.running(); }

private:
    const Clock& m_base;
    Milliseconds m_offset;
};

/// A clock that stands until it is moved: for tests and for the rehearsal.
class ManualClock final : public Clock {
public:
    explicit ManualClock(Instant start) : m_now(start) {}
    Instant now() const override { return m_now; }
    Milliseconds running() const override { return m_running; }
    /// Both clocks go on, as time does.
    void advance(Milliseconds d) { m_now += d; m_running += d; }
    /// Only the wall clock is set, as a person or a time service does.
    void setWall(Instant t) { m_now = t; }

private:
    Instant m_now;
    Milliseconds m_running{0};
};

} // namespace interlude
