#include "model/changeover/step_duration.h"

#include "model/physics/heat.h"

#include <algorithm>
#include <cmath>

namespace interlude {

namespace {

/// The steps of one changeover with what is known of its printer.
class Timing {
public:
    Timing(const QList<PlannedStep>& steps, const QSet<StepId>& first, const Catalogue& catalogue, const Transition& t)
        : m_steps(steps), m_first(first), m_catalogue(catalogue), m_transition(t),
          m_type(catalogue.typeOf(t.request.now.id)) {}

    void time(PlannedStep& p) const {
        switch (p.step.duration) {
        case DurationKind::Fixed:
            p.planned = p.step.minutes;
            break;
        case DurationKind::Heat:
            heat(p);
            break;
        case DurationKind::Cool:
            cool(p);
            break;
        case DurationKind::Purge:
            purge(p);
            break;
        }
    }

private:
    const PlannedStep* find(const StepId& id) const {
        for (const PlannedStep& p : m_steps)
            if (p.step.id == id)
                return &p;
        return nullptr;
    }

    QSet<StepId> before(const PlannedStep& p) const {
        QSet<StepId> all;
        QStringList open = p.after;
        if (!p.step.external && !m_first.contains(p.step.id))
            open += m_first.values();
        while (!open.isEmpty()) {
            const StepId id = open.takeFirst();
            const PlannedStep* other = find(id);
            if (!other || all.contains(id))
                continue;
            all.insert(id);
            open += other->after;
        }
        return all;
    }

    /// Where the last heatings or coolings of this subject before `p` end; several when their order is open.
    QList<const PlannedStep*> lastOf(Subject subject, const PlannedStep& p) const {
        QList<const PlannedStep*> found;
        const QSet<StepId> path = before(p);
        for (const PlannedStep& other : m_steps)
            if (path.contains(other.step.id) && other.step.subject == subject &&
                (other.step.duration == DurationKind::Heat || other.step.duration == DurationKind::Cool))
                found.append(&other);
        QSet<StepId> earlier;
        for (const PlannedStep* other : found)
            earlier += before(*other);
        found.removeIf([&](const PlannedStep* other) { return earlier.contains(other->step.id); });
        return found;
    }

    bool poweredOffBefore(const PlannedStep& p) const {
        const QSet<StepId> path = before(p);
        return std::any_of(m_steps.begin(), m_steps.end(), [&](const PlannedStep& other) {
            return path.contains(other.step.id) &&
                   (other.step.power == Power::Off || other.step.power == Power::Isolated);
        });
    }

    std::optional<Temperature> targetOf(const StepTemplate& s) const {
        if (s.duration == DurationKind::Cool)
            return s.to ? s.to : s.onlyBelow;
        if (s.duration != DurationKind::Heat)
            return {};
        switch (s.subject) {
        case Subject::HeadPart:
            return m_transition.partNozzleAfter;
        case Subject::HeadSupport:
            return m_transition.supportNozzleAfter;
        default:
            return m_transition.chamberAfter;
        }
    }

    /// What holds when the printer stops.
    Temperature setBefore(Subject subject) const {
        const PrinterNow& now = m_transition.request.now;
        const Temperature room = m_catalogue.fleet.room;
        if (m_transition.has(fact::longIdle))
            return room;
        const auto nominal = [&](const MaterialId& id) {
            const Material* m = m_catalogue.material(id);
            return m ? std::optional(m->nozzle) : std::nullopt;
        };
        switch (subject) {
        case Subject::HeadPart:
            return now.nozzleSet ? *now.nozzleSet : nominal(now.lastPart).value_or(room);
        case Subject::HeadSupport:
            return nominal(now.lastSupport).value_or(now.lastSupport.isEmpty() ? room : now.nozzleSet.value_or(room));
        default:
            return now.chamberSet.value_or(room);
        }
    }

    /// The temperature at the start of `p`; among several possible ones the one that takes longest. Several coolings alone
    /// leave no choice: in whatever order, the subject ends at the lowest.
    Temperature atStart(Subject subject, const PlannedStep& p) const {
        std::optional<Temperature> held;
        const bool heating = p.step.duration == DurationKind::Heat;
        const auto before = lastOf(subject, p);
        const bool lowest = heating || std::all_of(before.begin(), before.end(), [](const PlannedStep* other) {
                                return other->step.duration == DurationKind::Cool;
                            });
        for (const PlannedStep* other : before) {
            const std::optional<Temperature> end = targetOf(other->step);
            if (end && (!held || (lowest ? *end < *held : *end > *held)))
                held = end;
        }
        if (held)
            return *held;
        return heating && poweredOffBefore(p) ? m_catalogue.fleet.room : setBefore(subject);
    }

    void heat(PlannedStep& p) const {
        p.target = targetOf(p.step);
        const std::optional<HeatingConstants> constants = !m_type                               ? std::nullopt
                                                          : p.step.subject == Subject::Chamber  ? m_type->chamberHeat
                                                          : p.step.subject == Subject::Platform ? m_type->platformHeat
                                                                                                : m_type->headHeat;
        p.predictable = constants && p.target;
        if (!p.predictable)
            return;
        const Temperature start = atStart(p.step.subject, p);
        const Minutes settle = constants->settle + p.step.settle;
        if (start >= *p.target) {
            p.planned = settle;
            return;
        }
        const physics::Heating answer =
            physics::powerLimitedHeating(start.celsius(), constants->ceiling.celsius(), p.target->celsius(),
                                         static_cast<double>(constants->tau.count()));
        p.predictable = answer.answer == physics::HeatingAnswer::Seconds;
        if (answer.answer != physics::HeatingAnswer::Unreachable)
            p.planned = wholeMinutes(answer.seconds) + settle;
    }

    void cool(PlannedStep& p) const {
        p.target = targetOf(p.step);
        p.predictable = false;
        if (!p.target || !m_type)
            return;
        const Temperature start = atStart(p.step.subject, p);
        if (start <= *p.target) {
            p.predictable = true;
            return;
        }
        const double room = m_catalogue.fleet.room.celsius();
        std::optional<physics::TimeBand> band;
        if (p.step.subject == Subject::Chamber && m_type->chamberCool) {
            band = physics::oneNodeCooling(start.celsius(), room, p.target->celsius(),
                                           static_cast<double>(m_type->chamberCool->tau.count()),
                                           static_cast<double>(m_type->chamberCool->tauSe.count()));
        } else if ((p.step.subject == Subject::HeadPart || p.step.subject == Subject::HeadSupport) &&
                   m_type->headCool) {
            const HeadCooling& h = *m_type->headCool;
            band = physics::twoNodeCooling({h.c1, h.c2, h.g12, h.g20}, h.g12Se, h.g20Se, room,
                                           {start.celsius(), atStart(Subject::Chamber, p).celsius()},
                                           p.target->celsius(), physics::Node::Head);
        }
        if (!band)
            return;
        p.predictable = true;
        p.planned = wholeMinutes(band->upper);
    }

    void purge(PlannedStep& p) const {
        const Role role = p.step.subject == Subject::Support ? Role::Support : Role::Part;
        for (const PurgePlan& plan : m_transition.purges) {
            if (plan.role != role || !plan.needed)
                continue;
            p.purge = plan.volume;
            p.planned = roundUpToMinutes(plan.time);
        }
    }

    static Minutes wholeMinutes(double seconds) {
        return roundUpToMinutes(Seconds(static_cast<qint64>(std::ceil(seconds))));
    }

    const QList<PlannedStep>& m_steps;
    const QSet<StepId>& m_first;
    const Catalogue& m_catalogue;
    const Transition& m_transition;
    const PrinterType* m_type;
};

} // namespace

void timeSteps(QList<PlannedStep>& steps, const QSet<StepId>& first, const Catalogue& catalogue, const Transition& t) {
    const QList<PlannedStep> asSelected = steps;
    const Timing timing(asSelected, first, catalogue, t);
    for (PlannedStep& p : steps)
        timing.time(p);
}

} // namespace interlude
