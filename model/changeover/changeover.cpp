#include "model/changeover/changeover.h"

#include "model/changeover/pick_list.h"
#include "model/changeover/segments.h"
#include "model/changeover/step_duration.h"
#include "model/changeover/step_selection.h"
#include "model/changeover/work_layout.h"

#include <algorithm>
#include <array>

namespace interlude {

QString word(SegmentKind k) {
    switch (k) {
    case SegmentKind::Preparation:
        return QStringLiteral("preparation");
    case SegmentKind::HandsOn:
        return QStringLiteral("hands-on");
    case SegmentKind::Waiting:
        return QStringLiteral("waiting");
    case SegmentKind::PartRemoval:
        return QStringLiteral("part-removal");
    }
    return {};
}

const PlannedStep* Changeover::step(const StepId& id) const {
    for (const PlannedStep& p : steps)
        if (p.step.id == id)
            return &p;
    return nullptr;
}

namespace {

/// The three blocks of a changeover, each laid out on its own: external work on its own clock, then, from the moment
/// the printer stands, the part removal and the rest.
enum class Block { Preparation, PartRemoval, Main };

class Plan {
public:
    Plan(const Catalogue& catalogue, const Stock& stock, const Transition& t, Instant now)
        : m_catalogue(catalogue), m_stock(stock), m_now(now), m_printer(*catalogue.printer(t.request.now.id)),
          m_type(*catalogue.typeOf(t.request.now.id)) {
        m_plan.transition = t;
        m_plan.libraryVersion = catalogue.procedures.version;
        m_plan.catalogueHash = catalogue.hash;
    }

    Outcome<Changeover> bySteps() {
        QList<PlannedStep> steps = selectSteps(m_catalogue, m_stock, m_plan.transition);
        timeSteps(steps, divide(steps), m_catalogue, m_plan.transition);
        for (const Block block : {Block::Preparation, Block::PartRemoval, Block::Main})
            if (!add(steps, block))
                return refusal(QStringLiteral("procedure"),
                               QStringLiteral("The steps of this changeover come after each other in a circle."),
                               QStringLiteral("mend `after` in procedures.yaml"), QStringLiteral("procedures.yaml"));
        if (!m_printer.unattended)
            ensureStart();
        return finish();
    }

    /// The stop-watch table's figure: the hands-on part first, by one person, then the waiting part.
    Outcome<Changeover> byTable() {
        const QString from = m_plan.transition.request.now.label, to = m_plan.transition.request.wanted.label;
        const auto listed = std::find_if(m_printer.measured.begin(), m_printer.measured.end(),
                                         [&](const MeasuredChangeover& m) { return m.from == from && m.to == to; });
        if (from != to && listed == m_printer.measured.end())
            return refusal(
                QStringLiteral("measured-changeover"),
                QStringLiteral("%1 cannot go from %2 to %3: its table of measured changeovers has no such pair.")
                    .arg(m_printer.id, from.isEmpty() ? QStringLiteral("an unknown setup") : from, to),
                QStringLiteral("add the pair to the table"), m_printer.id);
        addPartRemovalByType();
        const Minutes begin = m_plan.partRemoval;
        if (from != to) {
            const Minutes hands = std::min(listed->handsOn, listed->total);
            QList<Segment> segments;
            if (hands > Minutes(0))
                segments.append({SegmentKind::HandsOn, {}, 1, {}, begin, begin + hands, false});
            if (hands < listed->total)
                segments.append({SegmentKind::Waiting, {}, 0, {}, begin + hands, begin + listed->total, false});
            m_plan.segments += m_printer.unattended ? withoutPeople(segments) : segments;
        }
        return finish();
    }

private:
    void append(const Segment& s) { m_plan.segments.append(s); }

    QSet<StepId> before(const QList<PlannedStep>& steps, const PlannedStep& p) const {
        QSet<StepId> all;
        QStringList open = p.after;
        while (!open.isEmpty()) {
            const StepId id = open.takeFirst();
            if (all.contains(id))
                continue;
            all.insert(id);
            for (const PlannedStep& other : steps)
                if (other.step.id == id)
                    open += other.after;
        }
        return all;
    }

    /// What must precede the part's removal belongs to it. An external step that must follow internal work is internal
    /// here, whatever the library says. Returns the steps of the part's removal.
    QSet<StepId> divide(QList<PlannedStep>& steps) {
        QSet<StepId> internal, removal;
        for (PlannedStep& p : steps)
            if (!p.step.external)
                internal.insert(p.step.id);
        for (PlannedStep& p : steps)
            if (p.step.external && before(steps, p).intersects(internal))
                p.step.external = false;
        for (const PlannedStep& p : steps)
            if (p.step.effect == Effect::RemovePart)
                (removal += before(steps, p)).insert(p.step.id);
        for (const PlannedStep& p : steps)
            m_block[p.step.id] = p.step.external               ? Block::Preparation
                                 : removal.contains(p.step.id) ? Block::PartRemoval
                                                               : Block::Main;
        removal.subtract(externals(steps));
        return removal;
    }

    static QSet<StepId> externals(const QList<PlannedStep>& steps) {
        QSet<StepId> ids;
        for (const PlannedStep& p : steps)
            if (p.step.external)
                ids.insert(p.step.id);
        return ids;
    }

    bool add(const QList<PlannedStep>& all, Block block) {
        QList<PlannedStep> steps;
        for (const PlannedStep& p : all)
            if (m_block.value(p.step.id) == block)
                steps.append(p);
        if (steps.isEmpty()) {
            if (block == Block::PartRemoval)
                addPartRemovalByType();
            return true;
        }
        const QList<WorkStep> work = asWork(steps);
        const std::optional<WorkLayout> layout = layOut(work);
        if (!layout)
            return false;
        const Minutes from = block == Block::Main ? m_plan.partRemoval : Minutes(0);
        QList<PlannedStep> inOrder;
        for (int i : layout->order) {
            steps[i].start = from + Minutes(layout->start[i]);
            steps[i].end = from + Minutes(layout->end[i]);
            inOrder.append(steps[i]);
        }
        if (block != Block::Preparation)
            markCritical(inOrder, steps, criticalChain(work, *layout));
        m_plan.steps += inOrder;
        addSegments(inOrder, block, from, from + Minutes(layout->length));
        return true;
    }

    static QList<WorkStep> asWork(const QList<PlannedStep>& steps) {
        QMap<StepId, int> index;
        for (int i = 0; i < steps.size(); ++i)
            index[steps[i].step.id] = i;
        QList<WorkStep> work;
        for (const PlannedStep& p : steps) {
            WorkStep w{static_cast<int>(p.planned.count()), p.step.handsOn(), {}};
            for (const StepId& id : p.after)
                if (index.contains(id))
                    w.after.append(index.value(id));
            work.append(w);
        }
        return work;
    }

    void markCritical(QList<PlannedStep>& inOrder, const QList<PlannedStep>& steps, const QList<int>& chain) {
        for (int i : chain)
            m_plan.criticalPath.append(steps[i].step.id);
        for (PlannedStep& p : inOrder)
            p.critical = m_plan.criticalPath.contains(p.step.id);
    }

    void addSegments(const QList<PlannedStep>& steps, Block block, Minutes from, Minutes to) {
        QList<Segment> segments = cutIntoSegments(steps, from, to);
        if (block == Block::Preparation)
            segments = {asOneBlock(steps, to)};
        if (block == Block::PartRemoval) {
            segments = ofKind(segments, SegmentKind::PartRemoval);
            m_plan.partRemoval = to;
        }
        if (block == Block::Preparation)
            m_plan.preparation = to;
        if (m_printer.unattended)
            segments = withoutPeople(segments);
        for (const Segment& s : segments)
            if (s.end > s.start)
                append(s);
    }

    static Segment asOneBlock(const QList<PlannedStep>& steps, Minutes length) {
        Segment s{SegmentKind::Preparation, {}, 1, {}, Minutes(0), length, false};
        for (const PlannedStep& p : steps) {
            s.steps.append(p.step.id);
            for (const QString& tool : p.step.tools)
                if (s.tools.count(tool) < p.step.tools.count(tool))
                    s.tools.append(tool);
        }
        return s;
    }

    /// `part-removal-minutes` serves only where the library has no step that removes the part.
    void addPartRemovalByType() {
        if (!partLies(m_plan.transition.request.now) || m_type.partRemoval <= Minutes(0))
            return;
        m_plan.partRemoval = m_type.partRemoval;
        append({SegmentKind::PartRemoval, {}, m_printer.unattended ? 0 : 1, {}, Minutes(0), m_type.partRemoval, false});
    }

    /// Somebody has to start the print: a changeover has at least `start-minutes` hands-on, in its last hands-on
    /// segment.
    void ensureStart() {
        const Minutes lacking = m_type.start - lengthOf(m_plan.segments, SegmentKind::HandsOn);
        if (lacking <= Minutes(0))
            return;
        const auto last = std::find_if(m_plan.segments.rbegin(), m_plan.segments.rend(),
                                       [](const Segment& s) { return s.kind == SegmentKind::HandsOn; });
        if (last == m_plan.segments.rend()) {
            Minutes end = m_plan.partRemoval;
            for (const Segment& s : m_plan.segments)
                if (s.kind == SegmentKind::Waiting)
                    end = std::max(end, s.end);
            QStringList starts;
            for (const PlannedStep& p : m_plan.steps)
                if (p.step.effect == Effect::StartPrint)
                    starts.append(p.step.id);
            append({SegmentKind::HandsOn, starts, 1, {}, end, end + lacking, false});
            return;
        }
        const Minutes end = last->end;
        for (Segment& s : m_plan.segments)
            if (s.kind != SegmentKind::Preparation && s.start >= end)
                s.start += lacking, s.end += lacking;
        last->end += lacking;
        for (PlannedStep& p : m_plan.steps)
            if (!p.step.external && p.start >= end && !last->steps.contains(p.step.id))
                p.start += lacking, p.end += lacking;
    }

    Changeover finish() {
        m_plan.waiting = lengthOf(m_plan.segments, SegmentKind::Waiting);
        m_plan.internal = m_plan.waiting + lengthOf(m_plan.segments, SegmentKind::HandsOn);
        for (const Segment& s : m_plan.segments)
            if (s.kind == SegmentKind::HandsOn)
                m_plan.handsOn += s.people * (s.end - s.start);
        m_plan.pickList = pickList(m_catalogue, m_stock, m_plan, m_now);
        return m_plan;
    }

    const Catalogue& m_catalogue;
    const Stock& m_stock;
    Instant m_now;
    const Printer& m_printer;
    const PrinterType& m_type;
    QMap<StepId, Block> m_block;
    Changeover m_plan;
};

} // namespace

Outcome<Changeover> planChangeover(const Catalogue& catalogue, const Stock& stock, const Transition& transition,
                                   Instant now, const QStringList& lifted, Purpose purpose) {
    const Printer* printer = catalogue.printer(transition.request.now.id);
    const bool byTable = printer && printer->hasMeasured && !transition.request.wanted.label.isEmpty();
    for (const Finding& f : refusalsIn(transition.verdicts)) {
        if (f.overridable && lifted.contains(f.rule))
            continue;
        if (purpose == Purpose::Plan && isShortStock(f))
            continue;
        if (byTable && f.rule == QStringLiteral("setup-label"))
            continue;
        return tl::unexpected<Finding>(f);
    }
    if (!printer || !catalogue.typeOf(printer->id))
        return refusal(QStringLiteral("printer"),
                       QStringLiteral("There is no printer %1.").arg(transition.request.now.id),
                       QStringLiteral("name one of fleet.yaml's printers"), transition.request.now.id);
    Plan plan(catalogue, stock, transition, now);
    return byTable ? plan.byTable() : plan.bySteps();
}

} // namespace interlude
