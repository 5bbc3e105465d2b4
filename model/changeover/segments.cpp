#include "model/changeover/segments.h"

#include <algorithm>

namespace interlude {

namespace {

bool isMounting(Effect e) {
    return e == Effect::MountNozzlePart || e == Effect::MountNozzleSupport;
}
bool isNozzleWork(Effect e) {
    return isMounting(e) || e == Effect::RemoveNozzlePart || e == Effect::RemoveNozzleSupport;
}

void addTools(Segment& s, const QStringList& tools) {
    for (const QString& tool : tools)
        if (s.tools.count(tool) < tools.count(tool))
            s.tools.append(tool);
}

/// Hands-on segments only, in order of time.
QList<Segment> handsOnStretches(const QList<PlannedStep>& steps) {
    QList<Segment> out;
    bool cut = true;
    for (const PlannedStep& p : steps) {
        if (!p.step.handsOn())
            continue;
        if (isNozzleWork(p.step.effect))
            cut = true;
        if (p.planned <= Minutes(0))
            continue;
        if (cut || out.last().end != p.start || out.last().people != p.step.people) {
            Segment s;
            s.people = p.step.people;
            s.start = p.start;
            out.append(s);
        }
        cut = false;
        out.last().end = p.end;
        out.last().steps.append(p.step.id);
        addTools(out.last(), p.step.tools);
    }
    return out;
}

QList<Segment> withWaits(const QList<Segment>& handsOn, Minutes from, Minutes to) {
    QList<Segment> out;
    const auto wait = [&](Minutes start, Minutes end) {
        if (start >= end)
            return;
        Segment s;
        s.kind = SegmentKind::Waiting;
        s.start = start;
        s.end = end;
        out.append(s);
    };
    for (const Segment& s : handsOn) {
        wait(from, s.start);
        out.append(s);
        from = s.end;
    }
    wait(from, to);
    return out;
}

void placeWaitingStep(QList<Segment>& segments, const PlannedStep& p) {
    bool placed = false;
    for (Segment& s : segments)
        if (s.kind == SegmentKind::Waiting && p.start < s.end && p.end > s.start) {
            s.steps.append(p.step.id);
            placed = true;
        }
    if (placed)
        return;
    for (Segment& s : segments)
        if (p.start >= s.start && p.start < s.end) {
            s.steps.append(p.step.id);
            return;
        }
}

/// The segment that a step of 0 minutes begins, ends or falls into.
Segment* segmentOf(QList<Segment>& segments, const PlannedStep& p) {
    const auto find = [&](const auto& fits) -> Segment* {
        for (Segment& s : segments)
            if (fits(s))
                return &s;
        return nullptr;
    };
    const auto handsOn = [](const Segment& s) { return s.kind == SegmentKind::HandsOn; };
    if (Segment* s = find([&](const Segment& x) { return handsOn(x) && x.start == p.start; }))
        return s;
    if (Segment* s = find([&](const Segment& x) { return handsOn(x) && x.end == p.start; }))
        return s;
    if (Segment* s = find([&](const Segment& x) { return x.start <= p.start && p.start < x.end; }))
        return s;
    return segments.isEmpty() ? nullptr : &segments.last();
}

void placeMomentaryStep(QList<Segment>& segments, const PlannedStep& p) {
    Segment* s = segmentOf(segments, p);
    if (!s)
        return;
    s->steps.append(p.step.id);
    if (p.step.handsOn())
        addTools(*s, p.step.tools);
}

/// Brings the steps of a segment into the order of work, and notes whether it begins with a mounting.
void putInOrder(Segment& s, const QList<PlannedStep>& steps) {
    QStringList inOrder;
    bool firstHandsOn = true;
    for (const PlannedStep& p : steps) {
        if (!s.steps.contains(p.step.id))
            continue;
        inOrder.append(p.step.id);
        if (p.step.handsOn() && firstHandsOn)
            s.mounts = isMounting(p.step.effect);
        firstHandsOn = firstHandsOn && !p.step.handsOn();
    }
    s.steps = inOrder;
}

} // namespace

QList<Segment> cutIntoSegments(const QList<PlannedStep>& steps, Minutes from, Minutes to) {
    QList<Segment> segments = withWaits(handsOnStretches(steps), from, to);
    for (const PlannedStep& p : steps)
        if (!p.step.handsOn() && p.planned > Minutes(0))
            placeWaitingStep(segments, p);
    for (const PlannedStep& p : steps)
        if (p.planned <= Minutes(0))
            placeMomentaryStep(segments, p);
    for (Segment& s : segments)
        putInOrder(s, steps);
    return segments;
}

QList<Segment> ofKind(QList<Segment> segments, SegmentKind kind) {
    for (Segment& s : segments)
        s.kind = kind;
    return segments;
}

QList<Segment> withoutPeople(const QList<Segment>& segments) {
    QList<Segment> out;
    for (Segment s : segments) {
        s.people = 0;
        if (s.kind == SegmentKind::HandsOn)
            s.kind = SegmentKind::Waiting;
        if (out.isEmpty() || out.last().kind != s.kind || out.last().end != s.start || s.mounts) {
            out.append(s);
            continue;
        }
        for (const StepId& id : s.steps)
            if (!out.last().steps.contains(id))
                out.last().steps.append(id);
        addTools(out.last(), s.tools);
        out.last().end = s.end;
    }
    return out;
}

Minutes lengthOf(const QList<Segment>& segments, SegmentKind kind) {
    Minutes sum{0};
    for (const Segment& s : segments)
        if (s.kind == kind)
            sum += s.end - s.start;
    return sum;
}

} // namespace interlude
