#pragma once
// Which nozzle serves (private to model/changeover). The nozzle that is mounted stays if it may; else the least life
// that suffices, no history last, then file order. A person's choice wins if it is valid.

#include "model/changeover/judging.h"

namespace interlude {

void judgeNozzleType(const Judging& j, const NozzleType& type, const Material& m, Role role);

/// Life against what the job extrudes. `Unknown`: without history, or a type without a rating for this material.
enum class Life { Enough, TooLittle, Unknown };

/// One position's question.
struct NozzleQuestion {
    const Judging& j;
    Role role;
    const Material& material;
    const NozzleType& type;
    NozzleSerial mounted;

    Volume need() const { return role == Role::Part ? j.request().partVolume : j.request().supportVolume; }
    Life life(const Nozzle& n) const;
    /// "12.5 cm³ left", "no history", "no rated life".
    QString lifeInWords(const Nozzle& n) const;
    /// Why this nozzle cannot serve, life apart; empty when it can.
    QString obstacle(const Nozzle& n) const;
};

} // namespace interlude
