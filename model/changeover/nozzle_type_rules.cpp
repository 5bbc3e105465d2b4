// What a nozzle type must be for a material, whichever nozzle of the type is taken.
#include "model/changeover/judging.h"
#include "model/changeover/nozzle_choice.h"
#include "model/changeover/plain_words.h"

namespace interlude {

namespace {

QString orificeList(const Material& m) {
    QStringList all;
    for (Length orifice : m.orifices)
        all.append(plainWords(orifice));
    return plainList(all);
}

} // namespace

void judgeNozzleType(const Judging& j, const NozzleType& type, const Material& m, Role role) {
    const auto refuse = [&](const char* rule, const QString& reason, const QString& remedy) {
        j.say(Severity::Refusal, QString::fromLatin1(rule), reason, remedy, type.id);
    };
    if (!type.roles.isEmpty() && !type.roles.contains(role))
        refuse("nozzle-role", QStringLiteral("Nozzle type %1 does not fit the %2.").arg(type.id, positionName(role)),
               QStringLiteral("choose a type made for that position"));
    if (!type.printerTypes.isEmpty() && !type.printerTypes.contains(j.printerType->id))
        refuse("nozzle-printer",
               QStringLiteral("Nozzle type %1 fits printers of type %2; %3 is of type %4.")
                   .arg(type.id, plainList(type.printerTypes), printerName(j), j.printerType->id),
               QStringLiteral("choose a nozzle type that fits this printer"));
    if (!m.orifices.isEmpty() && !m.orifices.contains(type.orifice))
        refuse("nozzle-orifice",
               QStringLiteral("%1 may be printed through %2; nozzle type %3 has %4.")
                   .arg(m.id, orificeList(m), type.id, plainWords(type.orifice)),
               QStringLiteral("choose an allowed orifice"));
    if (m.abrasive && !type.hardened)
        refuse("nozzle-abrasive",
               QStringLiteral("%1 is abrasive and nozzle type %2 is not hardened.").arg(m.id, type.id),
               QStringLiteral("choose a hardened nozzle"));
    if (type.max < m.nozzle)
        refuse("nozzle-temperature",
               QStringLiteral("Nozzle type %1 goes up to %2; %3 wants %4.")
                   .arg(type.id, plainWords(type.max), m.id, plainWords(m.nozzle)),
               QStringLiteral("choose a nozzle for hotter material"));
}

} // namespace interlude
