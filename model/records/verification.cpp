#include "model/records/verification.h"

#include <QRegularExpression>

namespace interlude {

namespace {

struct Printed {
    QString hash, fleet;
    qint64 position = 0; ///< 0: not stated
};

Printed readPrinted(const QString& text) {
    static const QRegularExpression code(QStringLiteral("^interlude ledger (\\S+) (\\d+) ([0-9a-f]+)$"));
    const QString plain = text.simplified().toLower();
    if (const auto match = code.match(plain); match.hasMatch())
        return {match.captured(3), match.captured(1), match.captured(2).toLongLong()};
    return {QString(plain).remove(QLatin1Char(' ')), {}, 0};
}

bool isHash(const QString& text) {
    static const QRegularExpression digits(QStringLiteral("^[0-9a-f]{16,64}$"));
    return digits.match(text).hasMatch();
}

} // namespace

Outcome<Compared> comparePrinted(const EventStore& store, const QString& fleetId, const QString& printed) {
    const Printed p = readPrinted(printed);
    if (!isHash(p.hash))
        return refusal(QStringLiteral("record-hash"), QStringLiteral("“%1” is not a hash").arg(printed.simplified()),
                       QStringLiteral("type at least its first 16 digits (0 to 9, a to f), or scan the code"));
    if (!p.fleet.isEmpty() && p.fleet != fleetId.toLower())
        return Compared{false, QStringLiteral("The record is of the fleet %1, this ledger of %2.").arg(p.fleet, fleetId)};
    std::optional<Event> found;
    const auto read = store.read(0, [&](const Event& e) {
        if (QString::fromLatin1(e.hash.toHex()).startsWith(p.hash)) found = e;
        return !found;
    });
    if (!read) return tl::unexpected(read.error());
    if (!found)
        return Compared{false, QStringLiteral("No event of this ledger has the hash %1: the record was not printed from this ledger, "
                                              "or the hash was read wrongly.").arg(p.hash)};
    if (p.position > 0 && p.position != found->sequence)
        return Compared{false, QStringLiteral("The hash is that of event %1, but the record says position %2.").arg(found->sequence).arg(p.position)};
    return Compared{true, QStringLiteral("The record's hash is that of event %1 (%2, recorded %3): it was printed from this ledger at "
                                         "that position.").arg(found->sequence).arg(found->kind, iso(found->recordedAt))};
}

} // namespace interlude
