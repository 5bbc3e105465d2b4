#include "app/verbs/opened_shop.h"

#include <QFileInfo>

namespace interlude::app {

namespace {

int verifyRecord(const EventStore& store, const QString& printed) {
    QString wanted = printed.trimmed().toLower();
    wanted.remove(QLatin1Char(' '));
    if (wanted.size() < 16) {
        complain(QStringLiteral("%1 is too short for a hash; type at least its first 16 digits").arg(printed));
        return 2;
    }
    std::optional<Event> found;
    const auto read = store.read(0, [&](const Event& e) {
        if (QString::fromLatin1(e.hash.toHex()).startsWith(wanted)) found = e;
        return !found;
    });
    if (!read) {
        complain(sentence(read.error()));
        return 1;
    }
    if (!found) {
        say(QStringLiteral("No event of this ledger has the hash %1: the record was not printed from this ledger, or "
                           "the hash was read wrongly.").arg(wanted));
        return 1;
    }
    say(QStringLiteral("The record's hash is that of event %1 (%2, recorded %3): it was printed from this ledger at "
                       "that position.").arg(found->sequence).arg(found->kind, iso(found->recordedAt)));
    return 0;
}

} // namespace

int verify(const FleetOptions& options, const QString& recordHash) {
    const CataloguePtr catalogue = readFleet(options.folder);
    if (!catalogue) return 1;
    const QString file = ledgerPath(options, *catalogue);
    if (file.isEmpty()) return 1;
    if (!QFileInfo::exists(file)) {
        complain(QStringLiteral("There is no ledger at %1 yet; it is made when the workbench is first opened").arg(file));
        return 1;
    }
    const auto store = openSqliteStore(file, catalogue->fleet.id, {}, true);
    if (!store) {
        complain(sentence(store.error()));
        return 1;
    }
    if (const auto misfit = (*store)->verify()) {
        say(QStringLiteral("Event %1 does not fit: %2").arg(misfit->sequence).arg(misfit->reason));
        return 1;
    }
    say(QStringLiteral("%1: %2 events, all fit; the last hash is %3")
            .arg((*store)->location())
            .arg((*store)->lastSequence())
            .arg(QString::fromLatin1((*store)->lastHash().toHex())));
    return recordHash.isEmpty() ? 0 : verifyRecord(**store, recordHash);
}

} // namespace interlude::app
