#include "model/shop/openings.h"

#include <QJsonArray>
#include <QJsonDocument>

namespace interlude {

namespace {

struct OpeningKind {
    const char *kind, *noun, *id, *file, *word;
};
constexpr OpeningKind kinds[] = {
    {act::SpoolOpening::kind, "spool", "id", "spools.yaml", "Spool"},
    {act::NozzleOpening::kind, "nozzle", "serial", "nozzles.yaml", "Nozzle"},
    {act::JobOpening::kind, "job", "id", "jobs.yaml", "Job"},
    {act::SetupOpening::kind, "setup", "printer", "setups.yaml", "The setup of"},
    {act::PrintOpening::kind, "print", "printer", "setups.yaml", "The print on"},
};

const OpeningKind* kindNamed(const QString& kind) {
    for (const OpeningKind& k : kinds)
        if (kind == QLatin1String(k.kind))
            return &k;
    return nullptr;
}

QJsonObject entryOf(const OpeningKind& k, const QJsonObject& payload) {
    return payload.value(QLatin1String(k.noun)).toObject();
}

QString keyOf(const OpeningKind& k, const QJsonObject& payload) {
    return QLatin1String(k.kind) + QLatin1Char('/') + entryOf(k, payload).value(QLatin1String(k.id)).toString();
}

QString plain(const QJsonValue& v) {
    switch (v.type()) {
    case QJsonValue::String:
        return v.toString().isEmpty() ? QStringLiteral("nothing") : v.toString();
    case QJsonValue::Double:
        return QString::number(v.toInteger());
    case QJsonValue::Bool:
        return v.toBool() ? QStringLiteral("yes") : QStringLiteral("no");
    case QJsonValue::Array:
        return QString::fromUtf8(QJsonDocument(v.toArray()).toJson(QJsonDocument::Compact));
    case QJsonValue::Object:
        return QString::fromUtf8(QJsonDocument(v.toObject()).toJson(QJsonDocument::Compact));
    default:
        return QStringLiteral("nothing");
    }
}

Problem problem(const OpeningKind& k, const QString& what, const QString& right) {
    Problem p;
    p.file = QString::fromLatin1(k.file);
    p.what = what;
    p.right = right;
    p.warning = true;
    return p;
}

} // namespace

void ImportedOpenings::remember(const Event& e) {
    if (e.kind == QLatin1String(act::Imported::kind)) {
        for (const OpeningKind& k : kinds)
            for (const QJsonValue& entry : e.payload.value(QLatin1String(k.noun) + QLatin1Char('s')).toArray()) {
                const QJsonObject alone{{QLatin1String(k.noun), entry}};
                m_byKey.insert(keyOf(k, alone), alone);
            }
        return;
    }
    if (const OpeningKind* k = kindNamed(e.kind))
        m_byKey.insert(keyOf(*k, e.payload), e.payload);
}

std::optional<QJsonObject> ImportedOpenings::find(const Happening& opening) const {
    const OpeningKind* k = kindNamed(kindOf(opening));
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

std::optional<Problem> openingDifference(const Happening& opening, const QJsonObject& imported) {
    const OpeningKind* k = kindNamed(kindOf(opening));
    if (!k)
        return {};
    const QJsonObject now = entryOf(*k, toPayload(opening)), then = entryOf(*k, imported);
    QStringList changes;
    for (auto it = now.begin(); it != now.end(); ++it)
        if (const QJsonValue before = then.value(it.key()); before != it.value())
            changes.append(QStringLiteral("%1 was %2, is %3").arg(it.key(), plain(before), plain(it.value())));
    if (changes.isEmpty())
        return {};
    return problem(*k,
                   QStringLiteral("%1 %2 differs from what was imported: %3")
                       .arg(QString::fromLatin1(k->word), now.value(QLatin1String(k->id)).toString(),
                            changes.join(QStringLiteral("; "))),
                   QStringLiteral("the ledger owns it now, change it in the window"));
}

Problem openingRefused(const Happening& opening, const Finding& why) {
    const OpeningKind& k = *kindNamed(kindOf(opening));
    const QString id = entryOf(k, toPayload(opening)).value(QLatin1String(k.id)).toString();
    return problem(k, QStringLiteral("%1 %2 is not imported: %3").arg(QString::fromLatin1(k.word), id, why.reason),
                   why.remedy.isEmpty() ? QStringLiteral("take it out, or enter it in the window") : why.remedy);
}

} // namespace interlude
