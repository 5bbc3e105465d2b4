#include "model/ledger/sqlite_tables.h"

namespace interlude::sqlite {

namespace {

// Result codes of SQLite, https://sqlite.org/rescode.html
enum { Perm = 3, Busy = 5, Locked = 6, ReadOnly = 8, IoError = 10, Corrupt = 11, Full = 13, CannotOpen = 14, NotADatabase = 26 };
constexpr int takenKey = 1555; // SQLITE_CONSTRAINT_PRIMARYKEY

// STRICT tables came with SQLite 3.37 (Debian 12 has 3.40): no column can change its type.
const char* const tables[] = {
    "CREATE TABLE ledger ("
    " only INTEGER PRIMARY KEY CHECK (only = 1),"
    " fleet TEXT NOT NULL"
    ") STRICT",
    "CREATE TABLE event ("
    " sequence INTEGER PRIMARY KEY CHECK (sequence > 0),"
    " recorded_at INTEGER NOT NULL,"
    " happened_at INTEGER NOT NULL,"
    " station TEXT NOT NULL,"
    " who TEXT NOT NULL,"
    " kind TEXT NOT NULL,"
    " canonical BLOB NOT NULL,"
    " hash BLOB NOT NULL CHECK (length(hash) = 32)"
    ") STRICT",
    // Against slips, not against intent: intent is what the hashes are for.
    "CREATE TRIGGER event_stays BEFORE UPDATE ON event BEGIN SELECT raise(ABORT, 'a ledger is only added to'); END",
    "CREATE TRIGGER event_kept BEFORE DELETE ON event BEGIN SELECT raise(ABORT, 'a ledger is only added to'); END",
};

struct Advice {
    const char* rule;
    const char* reason;
    const char* remedy;
};

Advice adviceFor(int extended) {
    if (extended == takenKey)
        return {"ledger-held", "another program has written to this ledger", "close all but one and open the ledger anew"};
    switch (extended & 0xff) {
    case Busy:
    case Locked: return {"ledger-held", "another program holds the file", "close that program and try again"};
    case Perm:
    case ReadOnly: return {"ledger-folder", "the file is write-protected", "give yourself the right to write it, or choose another place for the ledger"};
    case CannotOpen: return {"ledger-folder", "the file cannot be opened or made", "check the folder and your right to write in it"};
    case Full: return {"ledger-full", "there is no room left", "make room on that disk and do it again; everything confirmed before is safe"};
    case Corrupt: return {"ledger-damaged", "the database is damaged", "keep this file as it is and continue from the last backup that verifies"};
    case NotADatabase: return {"ledger-foreign", "the file is no SQLite database, or its beginning is damaged", "name the ledger's own file, or move this one away"};
    case IoError: return {"ledger-disk", "the disk reports an error", "check room and health of the disk, then open the ledger anew"};
    default: return {"ledger-disk", "SQLite refuses", "open the ledger anew; if it stays so, keep the file and use a backup"};
    }
}

Outcome<qint64> checkFleet(const QSqlDatabase& db, const QString& fleetId, const QString& file) {
    QSqlQuery query(db);
    if (!query.exec(QStringLiteral("SELECT fleet FROM ledger WHERE only = 1")))
        return tl::unexpected<Finding>(finding(query.lastError(), QStringLiteral("opened"), file));
    if (!query.next())
        return refusal(QStringLiteral("ledger-damaged"), QStringLiteral("the ledger does not say whose it is"),
                       QStringLiteral("keep this file as it is and continue from the last backup that verifies"), file);
    if (const QString theirs = query.value(0).toString(); theirs != fleetId)
        return refusal(QStringLiteral("ledger-fleet"),
                       QStringLiteral("this is the ledger of the fleet \"%1\", not of \"%2\"").arg(theirs, fleetId),
                       QStringLiteral("open it with its own fleet folder, or name another ledger for this one"), file);
    return 0;
}

} // namespace

bool isDiskError(const QSqlError& error) { return (error.nativeErrorCode().toInt() & 0xff) == IoError; }

Finding finding(const QSqlError& error, const QString& doing, const QString& file) {
    const Advice advice = adviceFor(error.nativeErrorCode().toInt());
    return refusal(QString::fromLatin1(advice.rule),
                   QStringLiteral("the ledger could not be %1: %2 (SQLite: %3)")
                       .arg(doing, QString::fromLatin1(advice.reason), error.databaseText()),
                   QString::fromLatin1(advice.remedy), file)
        .value();
}

Outcome<qint64> run(const QSqlDatabase& database, const QString& statement, const QString& doing, const QString& file) {
    QSqlQuery query(database);
    if (query.exec(statement)) return 0;
    return tl::unexpected<Finding>(finding(query.lastError(), doing, file));
}

Outcome<qint64> number(const QSqlDatabase& database, const QString& statement, const QString& file) {
    QSqlQuery query(database);
    if (!query.exec(statement) || !query.next())
        return tl::unexpected<Finding>(finding(query.lastError(), QStringLiteral("opened"), file));
    return query.value(0).toLongLong();
}

Outcome<qint64> createTables(const QSqlDatabase& db, const QString& fleetId, const QString& file) {
    const QString doing = QStringLiteral("made");
    if (auto done = run(db, QStringLiteral("BEGIN IMMEDIATE"), doing, file); !done) return done;
    // Both pragmas live in the database header and belong to the transaction.
    QStringList statements{QStringLiteral("PRAGMA application_id = %1").arg(applicationId),
                           QStringLiteral("PRAGMA user_version = %1").arg(tableFormat)};
    for (const char* statement : tables) statements += QString::fromLatin1(statement);
    for (const QString& statement : std::as_const(statements))
        if (auto done = run(db, statement, doing, file); !done) return done;
    QSqlQuery insert(db);
    insert.prepare(QStringLiteral("INSERT INTO ledger (only, fleet) VALUES (1, ?)"));
    insert.addBindValue(fleetId);
    if (!insert.exec()) return tl::unexpected<Finding>(finding(insert.lastError(), doing, file));
    return run(db, QStringLiteral("COMMIT"), doing, file);
}

Outcome<qint64> admit(const QSqlDatabase& db, const QString& fleetId, const QString& file) {
    const auto application = number(db, QStringLiteral("PRAGMA application_id"), file);
    if (!application) return application;
    const auto format = number(db, QStringLiteral("PRAGMA user_version"), file);
    if (!format) return format;
    if (*application != applicationId)
        return refusal(QStringLiteral("ledger-foreign"),
                       QStringLiteral("the file is a database of another program, not a ledger"),
                       QStringLiteral("name the ledger's own file"), file);
    if (*format > tableFormat)
        return refusal(QStringLiteral("ledger-newer"),
                       QStringLiteral("the ledger has table format %1; this version knows up to %2").arg(*format).arg(tableFormat),
                       QStringLiteral("use the newer version of Interlude that wrote it"), file);
    return checkFleet(db, fleetId, file);
}

} // namespace interlude::sqlite
