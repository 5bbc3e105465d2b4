#include "model/shop/openings.h"

#include <QJsonArray>

namespace interlude {

namespace {

constexpr OpeningKind kinds[] = {
    {act::SpoolOpening::kind, "spool", "id", "spools.yaml", "Spool"},
    {act::NozzleOpening::kind, "nozzle", "serial", "nozzles.yaml", "Nozzle"},
    {act::JobOpening::kind, "job", "id", "jobs.yaml", "Job"},
    {act::SetupOpening::kind, "setup", "printer", "setups.yaml", "The setup of"},
    {act::PrintOpening::kind, "print", "printer", "setups.yaml", "The print on"},
};

QString keyOf(const OpeningKind& k, const QJsonObject& payload) {
    return QLatin1String(k.kind) + QLatin1Char('/') + payload.value(QLatin1String(k.noun)).toObject().value(QLatin1String(k.id)).toString();
}

} // namespace

const OpeningKind* openingKindOf(const QString& kind) {
    for (const OpeningKind& k : kinds)
        if (kind == QLatin1String(k.kind))
            return &k;
    return nullptr;
}

void ImportedOpenings::remember(const Event& e) {
    if (e.kind == QLatin1String(act::Imported::kind)) {
        for (const OpeningKind& k : kinds)
            for (const QJsonValue& entry : e.payload.value(QLatin1String(k.noun) + QLatin1Char('s')).toArray()) {
                const QJsonObject alone{{QLatin1String(k.noun), entry}};
                m_byKey.insert(keyOf(k, alone), alone);
            }
        return;
    }
    if (const OpeningKind* k = openingKindOf(e.kind))
        m_byKey.insert(keyOf(*k, e.payload), e.payload);
}

std::optional<QJsonObject> ImportedOpenings::find(const Happening& opening) const {
    const OpeningKind* k = openingKindOf(kindOf(opening));
    if (!k)
        return {};
    const QString key = keyOf(*k, toPayload(opening));
    const auto found = m_byKey.constFind(key);
    if (found != m_byKey.constEnd())
        return *found;
    return m_past ? m_past->opening(key) : std::nullopt;
}

void ImportedOpenings::putAway(std::shared_ptr<const Past> past) {
    m_past = std::move(past);
    m_byKey.clear();
}

QList<Happening> openingsOf(const Catalogue& catalogue) {
    QList<Happening> out;
    for (const Spool& s : catalogue.openings.spools)
        out.append(act::SpoolOpening{s});
    for (const Nozzle& n : catalogue.openings.nozzles)
        out.append(act::NozzleOpening{n});
    for (const Job& j : catalogue.openings.jobs)
        out.append(act::JobOpening{j});
    for (const OpeningSetup& s : catalogue.openings.setups)
        out.append(act::SetupOpening{s});
    for (const OpeningPrint& p : catalogue.openings.prints)
        out.append(act::PrintOpening{p});
    return out;
}

} // namespace interlude
