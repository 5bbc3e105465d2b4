#include "model/shop/payload/state_fields.h"
#include "model/shop/shop.h"

namespace interlude {

QJsonObject stateJson(const Shop& shop) {
    using namespace payload;
    QJsonArray spools, nozzles, jobs, printers, sessions, prints;
    for (const Spool& s : shop.allSpools())
        spools.append(stateOf(KeptSpool{s}));
    for (const Nozzle& n : shop.allNozzles())
        nozzles.append(stateOf(KeptNozzle{n}));
    for (const Job& j : shop.allJobs())
        jobs.append(stateOf(KeptJob{j}));
    for (const PrinterNow& p : shop.printers())
        printers.append(stateOf(p));
    for (const SessionSummary& s : shop.sessionList())
        if (const SessionState* state = shop.session(s.number))
            sessions.append(stateOf(*state));
    for (const PrintRun& r : shop.allPrints())
        prints.append(stateOf(r));
    QJsonArray absences, downtimes;
    for (const PlannedAbsence& a : shop.absences())
        absences.append(stateOf(a));
    for (const PlannedDowntime& d : shop.downtimes())
        downtimes.append(stateOf(d));
    const auto offset = shop.exampleOffset();
    const auto recorded = shop.lastRecorded();
    return {{QStringLiteral("catalogue"), shop.catalogue().hash},
            {QStringLiteral("spools"), spools},
            {QStringLiteral("nozzles"), nozzles},
            {QStringLiteral("jobs"), jobs},
            {QStringLiteral("printers"), printers},
            {QStringLiteral("sessions"), sessions},
            {QStringLiteral("prints"), prints},
            {QStringLiteral("plan"), shop.plan() ? QJsonValue(stateOf(*shop.plan())) : QJsonValue()},
            {QStringLiteral("absences"), absences},
            {QStringLiteral("downtimes"), downtimes},
            {QStringLiteral("example-offset-ms"), offset ? QJsonValue(qint64(offset->count())) : QJsonValue()},
            {QStringLiteral("sequence"), shop.lastSequence()},
            {QStringLiteral("hash"), QString::fromLatin1(shop.lastHash().toHex())},
            {QStringLiteral("recorded-ms"), recorded ? QJsonValue(qint64(toMs(*recorded))) : QJsonValue()}};
}

} // namespace interlude
