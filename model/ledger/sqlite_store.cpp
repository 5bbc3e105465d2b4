#include "model/ledger/chain.h"
#include "model/ledger/sqlite_connection.h"
#include "model/ledger/sqlite_tables.h"

namespace interlude {

namespace {

const QString columns = QStringLiteral("sequence, recorded_at, happened_at, station, who, kind, canonical, hash");
// Text as its bytes: two different wrong bytes would read back as the same replacement character.
const QString stored = QStringLiteral("sequence, recorded_at, happened_at, CAST(station AS BLOB), CAST(who AS BLOB), "
                                      "CAST(kind AS BLOB), canonical, hash");

Link linkOf(const QSqlQuery& row) {
    return {row.value(0).toLongLong(), row.value(6).toByteArray(), row.value(7).toByteArray()};
}

/// The column that says something else than the event's canonical bytes; empty when all agree.
QString disagreeing(const QSqlQuery& row, const Event& e) {
    if (row.value(0).toLongLong() != e.sequence) return QStringLiteral("sequence");
    if (row.value(1).toLongLong() != toMs(e.recordedAt)) return QStringLiteral("recorded_at");
    if (row.value(2).toLongLong() != toMs(e.happenedAt)) return QStringLiteral("happened_at");
    if (row.value(3).toByteArray() != e.station.toUtf8()) return QStringLiteral("station");
    if (row.value(4).toByteArray() != e.who.toUtf8()) return QStringLiteral("who");
    if (row.value(5).toByteArray() != e.kind.toUtf8()) return QStringLiteral("kind");
    return {};
}

QString disagreement(const QString& column) {
    return QStringLiteral("its column \"%1\" says something else than its content").arg(column);
}

class SqliteStore final : public EventStore {
public:
    SqliteStore(std::unique_ptr<StationLock> lock, std::unique_ptr<sqlite::Connection> connection, QString file, QString fleetId,
                bool readOnly)
        : m_lock(std::move(lock)), m_connection(std::move(connection)), m_file(std::move(file)),
          m_fleetId(std::move(fleetId)), m_readOnly(readOnly) {}

    /// Reads the end of the chain and prepares the one statement that writes.
    Outcome<qint64> begin();

    qint64 lastSequence() const override { return m_lastSequence; }
    QByteArray lastHash() const override { return m_lastHash; }
    Outcome<Event> append(Event e) override;
    Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const override;
    std::optional<Misfit> verify() const override;
    QString location() const override { return m_readOnly ? m_file + QStringLiteral(" (read only)") : m_file; }

private:
    Outcome<QSqlQuery> rowsAfter(qint64 sequence) const;

    // In this order: the query goes before its connection, the lock goes last.
    std::unique_ptr<StationLock> m_lock;
    std::unique_ptr<sqlite::Connection> m_connection;
    std::unique_ptr<QSqlQuery> m_insert;
    QString m_file, m_fleetId;
    bool m_readOnly;
    qint64 m_lastSequence = 0;
    QByteArray m_lastHash;
    std::optional<Finding> m_lost; ///< set once it is not known what the disk holds
};

Outcome<qint64> SqliteStore::begin() {
    const QString doing = QStringLiteral("opened");
    QSqlQuery last(m_connection->database);
    if (!last.exec(QStringLiteral("SELECT %1 FROM event ORDER BY sequence DESC LIMIT 1").arg(stored)))
        return tl::unexpected<Finding>(sqlite::finding(last.lastError(), doing, m_file));
    const bool any = last.next();
    if (!any && last.lastError().isValid())
        return tl::unexpected<Finding>(sqlite::finding(last.lastError(), doing, m_file));
    m_lastSequence = any ? linkOf(last).sequence : 0;
    m_lastHash = any ? linkOf(last).hash : genesisHash(m_fleetId);
    if (m_readOnly) return m_lastSequence;
    m_insert = std::make_unique<QSqlQuery>(m_connection->database);
    if (!m_insert->prepare(QStringLiteral("INSERT INTO event (%1) VALUES (?, ?, ?, ?, ?, ?, ?, ?)").arg(columns)))
        return tl::unexpected<Finding>(sqlite::finding(m_insert->lastError(), doing, m_file));
    return m_lastSequence;
}

Outcome<Event> SqliteStore::append(Event e) {
    if (m_readOnly)
        return refusal(QStringLiteral("ledger-read-only"), QStringLiteral("the ledger was opened for reading only"),
                       QStringLiteral("open it without another station holding it"), m_file);
    if (m_lost) return tl::unexpected<Finding>(*m_lost);
    const auto canonical = forge(e, m_lastSequence, m_lastHash);
    if (!canonical) return tl::unexpected<Finding>(canonical.error());
    // A null QString would be bound as NULL; to the ledger nobody is the empty text.
    const auto text = [](const QString& s) { return QVariant(s.isNull() ? QStringLiteral("") : s); };
    const QVariant values[] = {e.sequence,   toMs(e.recordedAt), toMs(e.happenedAt), text(e.station),
                               text(e.who), text(e.kind),       *canonical,         e.hash};
    for (int i = 0; i < static_cast<int>(std::size(values)); ++i) m_insert->bindValue(i, values[i]);
    // Alone, a statement is its own transaction: SQLite returns when its commit has been synced.
    const bool durable = m_insert->exec();
    const QSqlError error = m_insert->lastError();
    m_insert->finish();
    if (!durable) {
        Finding why = sqlite::finding(error, QStringLiteral("written"), m_file);
        // A failed sync may or may not have reached the disk; only a fresh look can tell.
        if (sqlite::isDiskError(error)) {
            why.remedy = QStringLiteral("check room and health of the disk, then close the window and open it again: only then "
                                        "it is known whether this was kept");
            m_lost = why;
        }
        return tl::unexpected<Finding>(why);
    }
    m_lastSequence = e.sequence;
    m_lastHash = e.hash;
    return e;
}

Outcome<QSqlQuery> SqliteStore::rowsAfter(qint64 sequence) const {
    QSqlQuery rows(m_connection->database);
    rows.setForwardOnly(true); // one row in memory at a time
    rows.prepare(QStringLiteral("SELECT %1 FROM event WHERE sequence > ? ORDER BY sequence").arg(stored));
    rows.addBindValue(sequence);
    if (!rows.exec()) return tl::unexpected<Finding>(sqlite::finding(rows.lastError(), QStringLiteral("read"), m_file));
    return rows;
}

Outcome<qint64> SqliteStore::read(qint64 after, const std::function<bool(const Event&)>& each) const {
    auto rows = rowsAfter(std::max<qint64>(after, 0));
    if (!rows) return tl::unexpected<Finding>(rows.error());
    const auto unreadable = [&](Finding f, qint64 sequence) {
        f.reason = QStringLiteral("event %1 of the ledger cannot be read: %2").arg(sequence).arg(f.reason);
        f.place = m_file;
        return tl::unexpected<Finding>(f);
    };
    const Finding damage = refusal(QStringLiteral("ledger-damaged"), QString(),
                                   QStringLiteral("run verify, keep this file as it is, and continue from the last backup that verifies")).value();
    qint64 expected = std::max<qint64>(after, 0) + 1, count = 0;
    for (; rows->next(); ++expected) {
        const Link link = linkOf(*rows);
        Finding fault = damage;
        if (link.sequence != expected) {
            fault.reason = QStringLiteral("it is missing");
            return unreadable(fault, expected);
        }
        auto event = eventOf(link.canonical);
        if (!event) return unreadable(event.error(), expected);
        if (const QString column = disagreeing(*rows, *event); !column.isEmpty()) {
            fault.reason = disagreement(column);
            return unreadable(fault, expected);
        }
        event->hash = link.hash;
        ++count;
        if (!each(*event)) return count;
    }
    if (rows->lastError().isValid())
        return unreadable(sqlite::finding(rows->lastError(), QStringLiteral("read"), m_file), expected);
    return count;
}

std::optional<Misfit> SqliteStore::verify() const {
    ChainCheck check(m_fleetId);
    auto rows = rowsAfter(std::numeric_limits<qint64>::min());
    if (!rows) return Misfit{1, rows.error().reason};
    while (rows->next()) {
        const Link link = linkOf(*rows);
        if (auto misfit = check.next(link)) return misfit;
        if (const QString column = disagreeing(*rows, *eventOf(link.canonical)); !column.isEmpty())
            return Misfit{link.sequence, disagreement(column)};
    }
    if (rows->lastError().isValid())
        return Misfit{check.expected(), sqlite::finding(rows->lastError(), QStringLiteral("read"), m_file).reason};
    if (check.expected() <= m_lastSequence)
        return Misfit{check.expected(), QStringLiteral("it is missing at the end, although this station has seen it")};
    // What no event lies in may be damaged too.
    QSqlQuery whole(m_connection->database);
    const bool ran = whole.exec(QStringLiteral("PRAGMA quick_check(1)")) && whole.next();
    if (const QString said = ran ? whole.value(0).toString() : whole.lastError().databaseText(); said != QLatin1String("ok"))
        return Misfit{0, QStringLiteral("all events fit, but the database around them is damaged: %1").arg(said)};
    return std::nullopt;
}

} // namespace

Outcome<std::unique_ptr<EventStore>> openSqliteStore(const QString& file, const QString& fleetId, const QString& station,
                                                     bool readOnly) {
    std::unique_ptr<StationLock> lock;
    auto connection = sqlite::connect(file, fleetId, station, readOnly, lock);
    if (!connection) return tl::unexpected<Finding>(connection.error());
    auto store = std::make_unique<SqliteStore>(std::move(lock), std::move(*connection), file, fleetId, readOnly);
    if (const auto begun = store->begin(); !begun) return tl::unexpected<Finding>(begun.error());
    return store;
}

} // namespace interlude
