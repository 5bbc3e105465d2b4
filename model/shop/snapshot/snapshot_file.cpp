#include "model/shop/snapshot/snapshot_file.h"

#include <QCborMap>
#include <QCborValue>
#include <QCryptographicHash>
#include <QFile>
#include <QSqlError>

namespace interlude {

namespace {

using Kind = SnapshotFile::Kind;

/// PRAGMA user_version: the layout of this file.
constexpr int layout = 1;
constexpr qsizetype sumLength = 20;
/// What is longer is worth packing.
constexpr qsizetype smallest = 4096;

struct Table {
    Kind kind;
    const char* name;
};
constexpr Table tables[] = {{Kind::Session, "session"}, {Kind::Summary, "summary"}, {Kind::Print, "print"},
                            {Kind::Job, "job"},         {Kind::Spool, "spool"},     {Kind::Nozzle, "nozzle"},
                            {Kind::Opening, "opening"}};

QString tableOf(Kind kind) {
    for (const Table& t : tables)
        if (t.kind == kind)
            return QString::fromLatin1(t.name);
    return {};
}

QByteArray sumOf(const QByteArray& bytes) {
    return QCryptographicHash::hash(bytes, QCryptographicHash::Blake2b_160);
}

/// Checksum, then `z` and packed CBOR or `c` and plain CBOR.
QByteArray sealed(const QJsonObject& value) {
    const QByteArray cbor = QCborMap::fromJsonObject(value).toCborValue().toCbor();
    const QByteArray body = cbor.size() > smallest ? 'z' + qCompress(cbor, 1) : 'c' + cbor;
    return sumOf(body) + body;
}

void removeFiles(const QString& file) {
    for (const char* end : {"", "-wal", "-shm", "-journal"})
        QFile::remove(file + QString::fromLatin1(end));
}

} // namespace

SnapshotFile::SnapshotFile(QString file, bool readOnly)
    : m_file(std::move(file)), m_readOnly(readOnly), m_connection(std::make_unique<sqlite::Connection>(m_file, readOnly)) {
}

SnapshotFile::~SnapshotFile() {
    m_gets.clear();
    m_puts.clear();
    m_connection.reset();
    if (m_damaged && !m_readOnly)
        removeFiles(m_file);
}

std::unique_ptr<SnapshotFile> SnapshotFile::open(const QString& file, bool readOnly) {
    if (readOnly && !QFile::exists(file))
        return nullptr;
    for (int attempt = 0; attempt < 2; ++attempt) {
        std::unique_ptr<SnapshotFile> made(new SnapshotFile(file, readOnly));
        if (made->prepare())
            return made;
        made->m_damaged = true; // removed with it
        if (readOnly)
            return nullptr;
    }
    return nullptr;
}

bool SnapshotFile::prepare() {
    if (!m_connection->database.open())
        return false;
    QSqlQuery version(m_connection->database);
    if (!version.exec(QStringLiteral("PRAGMA user_version")) || !version.next())
        return false;
    const int found = version.value(0).toInt();
    version.finish();
    if (m_readOnly)
        return found == layout && run("BEGIN");
    if (found != 0 && found != layout)
        return false;
    // Losing the last snapshot in a power cut costs nothing but time: no sync at every commit.
    if (!run("PRAGMA journal_mode = WAL") || !run("PRAGMA synchronous = NORMAL"))
        return false;
    if (found == layout)
        return true;
    if (!begin())
        return false;
    bool made = run("CREATE TABLE live (only INTEGER PRIMARY KEY CHECK (only = 1), fingerprint BLOB NOT NULL,"
                    " sequence INTEGER NOT NULL, hash BLOB NOT NULL, bytes BLOB NOT NULL) STRICT");
    for (const Table& t : tables)
        made = made && run(qPrintable(QStringLiteral("CREATE TABLE %1 (name TEXT PRIMARY KEY, bytes BLOB NOT NULL) STRICT%2")
                                          .arg(QString::fromLatin1(t.name),
                                               t.kind == Kind::Session ? QString() : QStringLiteral(", WITHOUT ROWID"))));
    return made && run("PRAGMA user_version = 1") && commit();
}

bool SnapshotFile::run(const char* statement) const {
    QSqlQuery query(m_connection->database);
    return query.exec(QString::fromLatin1(statement));
}

QSqlQuery* SnapshotFile::prepared(std::map<Kind, QSqlQuery>& known, Kind kind, const QString& statement) const {
    const auto found = known.find(kind);
    if (found != known.end())
        return &found->second;
    QSqlQuery query(m_connection->database);
    query.setForwardOnly(true);
    if (!query.prepare(statement))
        return nullptr;
    return &known.emplace(kind, std::move(query)).first->second;
}

std::optional<QJsonObject> SnapshotFile::opened(const QByteArray& bytes) const {
    const QByteArray body = bytes.mid(sumLength);
    if (bytes.size() <= sumLength || !bytes.startsWith(sumOf(body))) {
        condemn();
        return {};
    }
    const QByteArray cbor = body.startsWith('z') ? qUncompress(body.mid(1)) : body.mid(1);
    return QCborValue::fromCbor(cbor).toMap().toJsonObject();
}

std::optional<SnapshotFile::Live> SnapshotFile::live() const {
    QSqlQuery query(m_connection->database);
    if (!query.exec(QStringLiteral("SELECT fingerprint, sequence, hash, bytes FROM live WHERE only = 1"))) {
        condemn();
        return {};
    }
    if (!query.next())
        return {};
    const auto atHand = opened(query.value(3).toByteArray());
    if (!atHand)
        return {};
    return Live{{query.value(0).toByteArray(), query.value(1).toLongLong(), query.value(2).toByteArray()}, *atHand};
}

std::optional<QJsonObject> SnapshotFile::get(Kind kind, const QString& name) const {
    QSqlQuery* query = prepared(m_gets, kind, QStringLiteral("SELECT bytes FROM %1 WHERE name = ?").arg(tableOf(kind)));
    if (!query) {
        condemn();
        return {};
    }
    query->bindValue(0, name);
    const bool ran = query->exec();
    const bool any = ran && query->next();
    std::optional<QJsonObject> out;
    if (any)
        out = opened(query->value(0).toByteArray());
    else if (!ran || query->lastError().isValid())
        condemn();
    query->finish();
    return out;
}

bool SnapshotFile::each(Kind kind, const std::function<void(const QJsonObject&)>& take) const {
    QSqlQuery query(m_connection->database);
    query.setForwardOnly(true);
    bool fine = query.exec(QStringLiteral("SELECT bytes FROM %1").arg(tableOf(kind)));
    while (fine && query.next()) {
        const auto value = opened(query.value(0).toByteArray());
        fine = value.has_value();
        if (value)
            take(*value);
    }
    if (!fine || query.lastError().isValid())
        condemn();
    return !m_damaged;
}

bool SnapshotFile::begin() {
    return !m_damaged && run("BEGIN IMMEDIATE");
}

bool SnapshotFile::forgetAll() {
    bool done = run("DELETE FROM live");
    for (const Table& t : tables)
        done = done && run(qPrintable(QStringLiteral("DELETE FROM %1").arg(QString::fromLatin1(t.name))));
    return done;
}

bool SnapshotFile::put(Kind kind, const QString& name, const QJsonObject& value) {
    QSqlQuery* query =
        prepared(m_puts, kind, QStringLiteral("INSERT OR REPLACE INTO %1 (name, bytes) VALUES (?, ?)").arg(tableOf(kind)));
    if (!query)
        return false;
    query->bindValue(0, name);
    query->bindValue(1, sealed(value));
    const bool done = query->exec();
    query->finish();
    return done;
}

bool SnapshotFile::putLive(const Live& live) {
    QSqlQuery query(m_connection->database);
    query.prepare(QStringLiteral("INSERT OR REPLACE INTO live (only, fingerprint, sequence, hash, bytes) VALUES (1, ?, ?, ?, ?)"));
    query.addBindValue(live.stamp.fingerprint);
    query.addBindValue(live.stamp.sequence);
    query.addBindValue(live.stamp.hash);
    query.addBindValue(sealed(live.atHand));
    return query.exec();
}

bool SnapshotFile::commit() {
    return run("COMMIT");
}

void SnapshotFile::rollback() {
    run("ROLLBACK");
}

} // namespace interlude
