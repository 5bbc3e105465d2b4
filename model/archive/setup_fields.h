#pragma once
// What changeovers and happenings both speak of: roles, sensors, setups.

#include "model/archive/archive.h"
#include "model/catalogue/fleet.h"
#include "model/catalogue/procedure_words.h"
#include "model/stock/setup.h"

namespace interlude::payload {

template <> struct Words<Role> {
    static constexpr std::array all{std::pair{Role::Part, "part"}, std::pair{Role::Support, "support"}};
};
template <> struct Words<Sensor> {
    static constexpr const auto& all = procedure_words::sensors;
};

template <class A> void fields(A& a, Ref<A, Envelope> x) {
    a("x-um", x.x);
    a("y-um", x.y);
    a("z-um", x.z);
}
template <class A> void fields(A& a, Ref<A, Setup> x) {
    a("label", x.label);
    a("part", x.part);
    a("support", x.support);
    a("part-nozzle", x.partNozzle);
    a("support-nozzle", x.supportNozzle);
    a("chamber-mc", x.chamber);
}

} // namespace interlude::payload
