#pragma once
// A drag over the board without its events: which jobs are carried, where they would stand, what that would cost. The
// price is asked for only when the place is another one, and only when the owner finds the time (`settle`).

#include "views/plan/board_geometry.h"
#include "views/plan/plan_desk.h"

namespace interlude {

class BoardDrag {
public:
    explicit BoardDrag(PlanDesk& desk) : m_desk(desk) {}

    /// Jobs in the order in which they shall stand. What prints or is in session stays where it is: if nothing else is
    /// carried, every place refuses.
    void begin(const std::vector<int>& jobs);
    void end();
    bool active() const { return m_active; }
    const std::vector<int>& jobs() const { return m_jobs; }
    /// By job, not 0 for what is carried.
    const std::vector<char>& carried() const { return m_carried; }

    /// True when the place is another one; the price is then asked for at the next `settle`.
    bool moveTo(const DropPlace& place);
    const DropPlace& place() const { return m_place; }
    bool pending() const { return m_pending; }
    void settle();
    /// Settled, and refused.
    bool refused() const { return m_refusal.has_value(); }
    /// Dropping here changes nothing.
    bool staysPut() const { return m_staysPut; }
    /// Price or refusal; empty while it is not known or the pointer is on no printer.
    const QString& text() const { return m_text; }
    /// When the first of what is carried would print there; empty while it is not known.
    const QString& prints() const { return m_prints; }
    /// Drops (settling first) and ends. The finding says why nothing has changed.
    std::optional<Finding> drop();

private:
    PlanDesk& m_desk;
    bool m_active = false, m_pending = false, m_staysPut = false;
    std::vector<int> m_jobs;
    std::vector<char> m_carried;
    DropPlace m_place;
    std::optional<Finding> m_refusal, m_fixed;
    QString m_text, m_prints;
};

/// The jobs that a planner may move: they wait, and no session has them.
std::vector<int> movableOf(const planning::ShopProblem& problem, const std::vector<int>& jobs);
/// Why none of these can be moved.
Finding fixedFinding(const planning::ShopProblem& problem, const std::vector<int>& jobs);

} // namespace interlude
