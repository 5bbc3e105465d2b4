#include "model/ledger/chain.h"

#include "model/ledger/canonical_json.h"

namespace interlude {

namespace {

const QString damaged = QStringLiteral("ledger-damaged");
const QString fromBackup = QStringLiteral("keep this file as it is and continue from the last backup that verifies");

/// Members in the order of the canonical form, with the type each must have.
constexpr std::pair<const char*, QJsonValue::Type> members[] = {
    {"format", QJsonValue::Double},      {"happened-at", QJsonValue::Double}, {"kind", QJsonValue::String},
    {"payload", QJsonValue::Object},     {"recorded-at", QJsonValue::Double}, {"sequence", QJsonValue::Double},
    {"station", QJsonValue::String},     {"who", QJsonValue::String},
};

tl::unexpected<Finding> unreadable(const QString& why) { return refusal(damaged, why, fromBackup); }

/// What is wrong with the members of a stored event; empty when nothing is.
QString memberFault(const QJsonObject& o) {
    for (const auto& [name, type] : members) {
        const QString key = QString::fromLatin1(name);
        if (!o.contains(key)) return QStringLiteral("the stored event has no \"%1\"").arg(key);
        if (o.value(key).type() != type) return QStringLiteral("\"%1\" is of the wrong type").arg(key);
    }
    if (o.size() != static_cast<qsizetype>(std::size(members)))
        return QStringLiteral("the stored event has a member that format 1 does not know");
    return {};
}

} // namespace

Outcome<QByteArray> forge(Event& e, qint64 lastSequence, const QByteArray& lastHash) {
    if (e.kind.isEmpty())
        return refusal(QStringLiteral("ledger-event"), QStringLiteral("an event without a kind cannot be recorded"));
    if (e.happenedAt > e.recordedAt)
        return refusal(QStringLiteral("ledger-time"),
                       QStringLiteral("this would have happened at %1, later than now (%2)")
                           .arg(iso(e.happenedAt), iso(e.recordedAt)),
                       QStringLiteral("state when it happened, or check this computer's clock"));
    e.format = ledgerFormat;
    e.sequence = lastSequence + 1;
    auto canonical = canonicalBytes(e);
    if (canonical) e.hash = chainedHash(lastHash, *canonical);
    return canonical;
}

Outcome<Event> eventOf(const QByteArray& canonical) {
    const auto object = parseCanonicalJson(canonical);
    if (!object) return tl::unexpected<Finding>(object.error());
    const QJsonObject& o = *object;
    // The format comes first: a later one may have other members.
    const QJsonValue format = o.value(QStringLiteral("format"));
    if (format.isDouble() && format.toInteger() > ledgerFormat)
        return refusal(QStringLiteral("ledger-newer"),
                       QStringLiteral("the stored event has format %1; this version reads up to %2")
                           .arg(format.toInteger()).arg(ledgerFormat),
                       QStringLiteral("use the newer version of Interlude that wrote it"));
    if (const QString fault = memberFault(o); !fault.isEmpty()) return unreadable(fault);
    if (format.toInteger() != ledgerFormat)
        return unreadable(QStringLiteral("there is no format %1").arg(format.toInteger()));
    Event e;
    e.format = ledgerFormat;
    e.sequence = o.value(QStringLiteral("sequence")).toInteger();
    e.happenedAt = instantFromMs(o.value(QStringLiteral("happened-at")).toInteger());
    e.recordedAt = instantFromMs(o.value(QStringLiteral("recorded-at")).toInteger());
    e.kind = o.value(QStringLiteral("kind")).toString();
    e.station = o.value(QStringLiteral("station")).toString();
    e.who = o.value(QStringLiteral("who")).toString();
    e.payload = o.value(QStringLiteral("payload")).toObject();
    return e;
}

ChainCheck::ChainCheck(const QString& fleetId) : m_hash(genesisHash(fleetId)) {}

std::optional<Misfit> ChainCheck::next(const Link& link) {
    const qint64 wanted = expected();
    if (link.sequence > wanted)
        return Misfit{wanted, QStringLiteral("it is missing: %1 follows directly on %2").arg(link.sequence).arg(m_last)};
    if (link.sequence < wanted)
        return Misfit{link.sequence, QStringLiteral("its number is not one that can follow on %1").arg(m_last)};
    // The hash comes before the meaning: it says for certain that bytes were changed.
    if (link.hash.size() != 32) return Misfit{wanted, QStringLiteral("its hash is not 32 bytes long")};
    if (chainedHash(m_hash, link.canonical) != link.hash)
        return Misfit{wanted, QStringLiteral("its hash differs from that of the previous hash and its content")};
    const auto event = eventOf(link.canonical);
    if (!event) return Misfit{wanted, event.error().reason};
    if (event->sequence != wanted)
        return Misfit{wanted, QStringLiteral("its content states the number %1").arg(event->sequence)};
    if (event->happenedAt > event->recordedAt)
        return Misfit{wanted, QStringLiteral("it is stated to have happened after it was recorded")};
    m_last = wanted;
    m_hash = link.hash;
    return std::nullopt;
}

} // namespace interlude
