#include "model/changeover/remaining.h"

#include "model/changeover/segments.h"
#include "model/changeover/work_layout.h"

namespace interlude {

QList<Segment> remainingSegments(const Changeover& changeover, const QSet<StepId>& settled,
                                 const QMap<StepId, Minutes>& left, bool unattended) {
    QList<PlannedStep> steps;
    QMap<StepId, int> index;
    for (PlannedStep s : changeover.steps) {
        if (settled.contains(s.step.id)) continue;
        s.planned = left.value(s.step.id, s.planned);
        index.insert(s.step.id, static_cast<int>(steps.size()));
        steps.append(s);
    }
    QList<WorkStep> work;
    for (const PlannedStep& s : steps) {
        WorkStep w{static_cast<int>(s.planned.count()), s.step.handsOn(), {}};
        for (const StepId& id : s.after)
            if (index.contains(id)) w.after.append(index.value(id));
        work.append(w);
    }
    const std::optional<WorkLayout> layout = layOut(work);
    if (!layout) return {}; // such a folder is refused when it is read
    QList<PlannedStep> inOrder;
    for (const int i : layout->order) {
        steps[i].start = Minutes(layout->start[i]);
        steps[i].end = Minutes(layout->end[i]);
        inOrder.append(steps[i]);
    }
    const QList<Segment> segments = cutIntoSegments(inOrder, Minutes(0), Minutes(layout->length));
    return unattended ? withoutPeople(segments) : segments;
}

} // namespace interlude
