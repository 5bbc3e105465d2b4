#include "model/ledger/sqlite_connection.h"

#include "model/ledger/durable_file.h"
#include "model/ledger/sqlite_tables.h"

#include <QDir>
#include <QFileInfo>
#include <QSqlQuery>
#include <QUuid>

namespace interlude::sqlite {

Connection::Connection(const QString& file, bool readOnly)
    : m_name(QStringLiteral("interlude-ledger-") + QUuid::createUuid().toString(QUuid::WithoutBraces)) {
    database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), m_name);
    database.setDatabaseName(file);
    database.setConnectOptions(readOnly ? QStringLiteral("QSQLITE_BUSY_TIMEOUT=5000;QSQLITE_OPEN_READONLY")
                                        : QStringLiteral("QSQLITE_BUSY_TIMEOUT=5000"));
}

Connection::~Connection() {
    database.close();
    database = QSqlDatabase();
    QSqlDatabase::removeDatabase(m_name);
}

namespace {

const QString fromBackup = QStringLiteral("keep this file as it is and continue from the last backup that verifies");

/// Says early and in words what SQLite would say late and in codes.
Outcome<qint64> checkPlace(const QString& file, bool readOnly) {
    const QFileInfo info(file);
    if (info.isDir())
        return refusal(QStringLiteral("ledger-foreign"), QStringLiteral("this is a folder, not a ledger"),
                       QStringLiteral("name a file in it, for instance ledger.sqlite"), file);
    if (!info.exists() && QFileInfo::exists(draftOfRestore(file)))
        return refusal(QStringLiteral("ledger-restoring"), QStringLiteral("the ledger is gone, and a restore was broken off here"),
                       QStringLiteral("run `interlude restore` again, then open the workbench"), file);
    if (readOnly && !info.exists())
        return refusal(QStringLiteral("ledger-missing"), QStringLiteral("there is no ledger here yet"),
                       QStringLiteral("open the workbench once, or name the ledger with --ledger"), file);
    // SQLite would take an empty file for a new database, and a shop's past would be gone without a word.
    if (info.exists() && info.size() == 0)
        return refusal(QStringLiteral("ledger-damaged"), QStringLiteral("the file is empty; a ledger never is"),
                       QStringLiteral("restore it from a backup; if there never was a ledger here, delete the file"), file);
    // … and would replay a log that belongs to a file which is gone.
    const QString log = file + QStringLiteral("-wal");
    if (!info.exists() && QFileInfo(log).size() > 0)
        return refusal(QStringLiteral("ledger-damaged"),
                       QStringLiteral("the ledger is gone, but its write-ahead log is still here"),
                       QStringLiteral("put the ledger's file back beside it, or move the log away"), log);
    if (!readOnly && !QDir().mkpath(info.absolutePath()))
        return refusal(QStringLiteral("ledger-folder"), QStringLiteral("the ledger's folder cannot be made"),
                       QStringLiteral("choose another place for the ledger, or give yourself the right to write there"),
                       info.absolutePath());
    return 0;
}

/// The beginning of the file, before SQLite looks: it takes a file of a few bytes for an empty database.
Outcome<qint64> checkBeginning(const QString& file) {
    static const QByteArray magic("SQLite format 3\0", 16);
    QFile f(file);
    if (!f.open(QIODevice::ReadOnly))
        return refusal(QStringLiteral("ledger-folder"), QStringLiteral("the ledger cannot be read (%1)").arg(f.errorString()),
                       QStringLiteral("give yourself the right to read it"), file);
    const QByteArray head = f.read(magic.size());
    if (!magic.startsWith(head))
        return refusal(QStringLiteral("ledger-foreign"), QStringLiteral("the file is no SQLite database, or its beginning is damaged"),
                       QStringLiteral("name the ledger's own file, or move this one away"), file);
    if (f.size() < 512) // the smallest page of SQLite
        return refusal(QStringLiteral("ledger-damaged"), QStringLiteral("the file has been cut off"), fromBackup, file);
    return 0;
}

/// Made under another name and then renamed, so that a kill leaves either no ledger or a whole one.
Outcome<qint64> makeNew(const QString& file, const QString& fleetId) {
    const QString draft = file + QStringLiteral(".new");
    QFile::remove(draft);
    QFile::remove(draft + QStringLiteral("-journal"));
    {
        Connection connection(draft, false);
        if (!connection.database.open())
            return tl::unexpected<Finding>(finding(connection.database.lastError(), QStringLiteral("made"), file));
        if (auto made = createTables(connection.database, fleetId, file); !made) return made;
    }
    if (const auto named = renameDurably(draft, file); !named)
        return refusal(QStringLiteral("ledger-folder"), QStringLiteral("the ledger could not be made: %1").arg(named.error().reason),
                       named.error().remedy, file);
    return 0;
}

Outcome<qint64> makeDurable(const QSqlDatabase& database, const QString& file) {
    QSqlQuery mode(database);
    if (!mode.exec(QStringLiteral("PRAGMA journal_mode = WAL")) || !mode.next())
        return tl::unexpected<Finding>(finding(mode.lastError(), QStringLiteral("opened"), file));
    if (mode.value(0).toString() != QLatin1String("wal"))
        return refusal(QStringLiteral("ledger-folder"), QStringLiteral("this file system cannot keep a write-ahead log"),
                       QStringLiteral("keep the ledger on a local disk"), file);
    return run(database, QStringLiteral("PRAGMA synchronous = FULL"), QStringLiteral("opened"), file);
}

} // namespace

Outcome<std::unique_ptr<Connection>> connect(const QString& file, const QString& fleetId, const QString& station,
                                             bool readOnly, std::unique_ptr<StationLock>& lock) {
    const auto refused = [](const Finding& f) { return tl::unexpected<Finding>(f); };
    if (const auto place = checkPlace(file, readOnly); !place) return refused(place.error());
    if (!readOnly) {
        auto taken = StationLock::take(file, station);
        if (!taken) return refused(taken.error());
        lock = std::move(*taken);
        if (!QFileInfo::exists(file))
            if (const auto made = makeNew(file, fleetId); !made) return refused(made.error());
    }
    if (const auto beginning = checkBeginning(file); !beginning) return refused(beginning.error());
    auto connection = std::make_unique<Connection>(file, readOnly);
    QSqlDatabase& database = connection->database;
    if (!database.open()) return refused(finding(database.lastError(), QStringLiteral("opened"), file));
    // Whose file it is comes first: nothing is changed in a stranger's.
    if (const auto admitted = admit(database, fleetId, file); !admitted) return refused(admitted.error());
    if (!readOnly)
        if (const auto durable = makeDurable(database, file); !durable) return refused(durable.error());
    return connection;
}

} // namespace interlude::sqlite
