#pragma once
// What a process that was killed had said, and whether the ledger holds it.

#include "model/ledger/store.h"

#include <QMap>

namespace interlude::tests {

/// Sequence → hash, of every line `SEQUENCE HASH` that is whole.
inline QMap<qint64, QByteArray> confirmedIn(const QByteArray& said) {
    QMap<qint64, QByteArray> all;
    const qsizetype end = said.lastIndexOf('\n');
    for (const QByteArray& line : said.left(end + 1).split('\n')) {
        const QList<QByteArray> words = line.split(' ');
        if (words.size() == 2 && words[1].size() == 64) all.insert(words[0].toLongLong(), QByteArray::fromHex(words[1]));
    }
    return all;
}

/// Opens the ledger as the next person does: the dead process's lock must not be in the way, the chain verifies, and every
/// confirmed event is there. What is wrong; empty when nothing is. `kept`: how many events there are.
inline QString stands(const QString& ledger, const QString& fleetId, const QMap<qint64, QByteArray>& confirmed, qint64& kept) {
    const auto store = openSqliteStore(ledger, fleetId, QStringLiteral("next"));
    if (!store) return sentence(store.error());
    if (const auto misfit = (*store)->verify()) return QStringLiteral("event %1: %2").arg(misfit->sequence).arg(misfit->reason);
    QString wrong;
    qint64 found = 0;
    if (confirmed.isEmpty()) {
        kept = (*store)->lastSequence();
        return {};
    }
    const auto read = (*store)->read(confirmed.firstKey() - 1, [&](const Event& e) {
        const auto known = confirmed.constFind(e.sequence);
        if (known == confirmed.constEnd()) return true;
        ++found;
        if (*known != e.hash) wrong = QStringLiteral("event %1 is another one than was confirmed").arg(e.sequence);
        return wrong.isEmpty();
    });
    if (!read) return sentence(read.error());
    kept = (*store)->lastSequence();
    if (wrong.isEmpty() && found != confirmed.size())
        wrong = QStringLiteral("%1 of %2 confirmed events are there").arg(found).arg(confirmed.size());
    return wrong;
}

} // namespace interlude::tests
