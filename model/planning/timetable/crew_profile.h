#pragma once
// How many people are free, minute by minute, while segments run and hold their places: where is the earliest slot?
// (Private to model/planning.)

#include "model/planning/problem/problem.h"

namespace interlude::planning {

/// People and tools in use over a span; kept for what runs and, while a line is read, for the places held.
struct Use {
    Minute from = 0, to = 0;
    int people = 0;
    const std::vector<int>* tools = nullptr; ///< borrowed
};

class CrewProfile {
public:
    explicit CrewProfile(const Problem& problem);

    void clear() {
        m_uses.clear();
        m_entry = 0;
    }
    /// Forgets what has ended by then.
    void forgetBefore(Minute now);
    void add(const Use& use) { m_uses.push_back(use); }
    /// How many uses there are, to come back to that state.
    std::size_t mark() const { return m_uses.size(); }
    void backTo(std::size_t mark) { m_uses.resize(mark); }
    const Use& at(std::size_t index) const { return m_uses[index]; }
    const std::vector<Use>& uses() const { return m_uses; }
    void setUses(const std::vector<Use>& uses) {
        m_uses = uses;
        m_entry = 0;
    }

    /// The earliest start at or after `now` at which `people` and the tools are free for the whole length beside all uses,
    /// outside the printer's downtime; `never` if there is none.
    Minute earliest(Minute now, Minute length, int people, const std::vector<int>& tools,
                    const std::vector<Span>& down) const;
    /// How many people have nothing to do at that minute.
    int freeAt(Minute t) const;
    /// The next minute after `now` at which the crew changes; `never` if it does not.
    Minute nextChange(Minute now) const;

private:
    /// The end of a stretch inside [from, from + length) in which too few are free; `from` when there is none.
    Minute blockedUntil(Minute from, Minute length, int people, const std::vector<int>& tools,
                        const std::vector<Span>& down) const;
    std::size_t entryAt(Minute t) const;

    const Problem& m_problem;
    std::vector<Use> m_uses;
    std::size_t m_entry = 0; ///< of the crew, at or before the minute of the last `forgetBefore`
    bool m_alwaysEnough; ///< unlimited crew and no tools to share
};

/// The earliest start at or after `from` of something that long outside the downtime.
Minute outsideDowntime(Minute from, Minute length, const std::vector<Span>& down);

} // namespace interlude::planning
