#pragma once
// Spools and nozzles in events. What only the fold knows (order, stock entries, position) is not part of a payload.

#include "model/archive/setup_fields.h"
#include "model/shop/happening.h"

namespace interlude::payload {

template <> struct Words<NozzleWhere> {
    static constexpr std::array all{std::pair{NozzleWhere::Shelf, "shelf"}, std::pair{NozzleWhere::Mounted, "mounted"},
                                    std::pair{NozzleWhere::Retired, "retired"}};
};

template <class A> void fields(A& a, Ref<A, RunVolume> x) {
    a("known", x.known);
    a("plain-mm3", x.plain);
    a("abrasive-mm3", x.abrasive);
}
template <class A> void fields(A& a, Ref<A, NozzleMeasurement> x) {
    a("at-ms", x.at);
    a("orifice-um", x.orifice);
    a("instrument", x.instrument);
    a("who", x.who);
}
template <class A> void fields(A& a, Ref<A, Nozzle> x) {
    a("serial", x.serial);
    a("type", x.type);
    a("run", x.run);
    a("melt-family", x.meltFamily);
    a("where", x.where);
    a("place", x.place);
    a("to-be-cleaned", x.toBeCleaned);
    a("retired-why", x.retiredWhy);
    a("measurements", x.measurements);
}
template <class A> void fields(A& a, Ref<A, Spool> x) {
    a("id", x.id);
    a("material", x.material);
    a("lot", x.lot);
    a("left-mg", x.left);
    a("left-se-mg", x.leftSe);
    a("tare-mg", x.tare);
    a("place", x.place);
    a("received-ms", x.received);
    a("opened-ms", x.opened);
    a("expires-ms", x.expires);
    a("dried-ms", x.dried);
    a("exposed-from-ms", x.exposedFrom);
    a("exposed-before-ms", x.exposedBefore);
}

template <class A> void fields(A& a, Ref<A, act::SpoolOpening> x) {
    a("spool", x.spool);
}
template <class A> void fields(A& a, Ref<A, act::SpoolReceived> x) {
    a("spool", x.spool);
}
template <class A> void fields(A& a, Ref<A, act::SpoolWeighed> x) {
    a("spool", x.spool);
    a("gross-mg", x.gross);
    a("tare-mg", x.tare);
    a("se-mg", x.se);
}
template <class A> void fields(A& a, Ref<A, act::SpoolDried> x) {
    a("spool", x.spool);
    a("at-mc", x.at);
    a("from-ms", x.from);
    a("to-ms", x.to);
}
template <class A> void fields(A& a, Ref<A, act::SpoolMoved> x) {
    a("spool", x.spool);
    a("place", x.place);
    a("exposed", x.exposed);
}
template <class A> void fields(A& a, Ref<A, act::SpoolLoaded> x) {
    a("spool", x.spool);
    a("printer", x.printer);
    a("position", x.position);
}
template <class A> void fields(A& a, Ref<A, act::SpoolUnloaded> x) {
    a("spool", x.spool);
    a("place", x.place);
}
template <class A> void fields(A& a, Ref<A, act::SpoolRetired> x) {
    a("spool", x.spool);
    a("why", x.why);
}

template <class A> void fields(A& a, Ref<A, act::NozzleOpening> x) {
    a("nozzle", x.nozzle);
}
template <class A> void fields(A& a, Ref<A, act::NozzleReceived> x) {
    a("nozzle", x.nozzle);
}
template <class A> void fields(A& a, Ref<A, act::NozzleUseStated> x) {
    a("nozzle", x.nozzle);
    a("run", x.run);
}
template <class A> void fields(A& a, Ref<A, act::NozzleMeasured> x) {
    a("nozzle", x.nozzle);
    a("orifice-um", x.orifice);
    a("instrument", x.instrument);
}
template <class A> void fields(A& a, Ref<A, act::NozzleRetired> x) {
    a("nozzle", x.nozzle);
    a("why", x.why);
}

} // namespace interlude::payload
