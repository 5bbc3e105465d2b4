#include "model/changeover/changeover.h"

#include "model/changeover/transition_fields.h"

namespace interlude {

namespace payload {

template <> struct Words<SegmentKind> {
    static constexpr std::array all{
        std::pair{SegmentKind::Preparation, "preparation"}, std::pair{SegmentKind::HandsOn, "hands-on"},
        std::pair{SegmentKind::Waiting, "waiting"}, std::pair{SegmentKind::PartRemoval, "part-removal"}};
};

template <class A> void fields(A& a, Ref<A, PlannedStep> x) {
    a("step", x.step);
    a("after", x.after);
    a("expected-scans", x.expectedScans);
    a("planned-min", x.planned);
    a("predictable", x.predictable);
    a("target-mc", x.target);
    a("purge-mm3", x.purge);
    a("mandatory-because", x.mandatoryBecause);
    a("critical", x.critical);
    a("start-min", x.start);
    a("end-min", x.end);
}
template <class A> void fields(A& a, Ref<A, Segment> x) {
    a("kind", x.kind);
    a("steps", x.steps);
    a("people", x.people);
    a("tools", x.tools);
    a("start-min", x.start);
    a("end-min", x.end);
    a("mounts", x.mounts);
}
template <class A> void fields(A& a, Ref<A, PickItem> x) {
    a("kind", x.kind);
    a("id", x.id);
    a("name", x.name);
    a("place", x.place);
    a("count", x.count);
    a("note", x.note);
    a("missing", x.missing);
}
/// Not by the name `fields`: a changeover inside an event is written and read by toJson and changeoverFromJson.
template <class A> void changeoverFields(A& a, Ref<A, Changeover> x) {
    a("transition", x.transition);
    a("steps", x.steps);
    a("segments", x.segments);
    a("critical-path", x.criticalPath);
    a("pick-list", x.pickList);
    a("preparation-min", x.preparation);
    a("part-removal-min", x.partRemoval);
    a("internal-min", x.internal);
    a("hands-on-min", x.handsOn);
    a("waiting-min", x.waiting);
    a("library-version", x.libraryVersion);
    a("catalogue-hash", x.catalogueHash);
}

} // namespace payload

QJsonObject toJson(const Changeover& c) {
    payload::Writer writer;
    payload::changeoverFields<payload::Writer>(writer, c);
    return writer.object();
}

Outcome<Changeover> changeoverFromJson(const QJsonObject& o) {
    Changeover c;
    std::optional<payload::Fault> fault;
    payload::Reader reader(o, {}, fault);
    payload::changeoverFields<payload::Reader>(reader, c);
    reader.finish();
    if (fault)
        return refusal(QStringLiteral("changeover-json"), QStringLiteral("`%1` %2").arg(fault->field, fault->what),
                       QStringLiteral("read it with the version that wrote it"), fault->field);
    return c;
}

} // namespace interlude
