#pragma once
// The SQLite file of a ledger, table format 1, documented in resources/help/ledger-format.md. Only words of SQL and the
// translation of SQLite's errors into findings live here.

#include "model/findings/finding.h"

#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>

namespace interlude::sqlite {

/// PRAGMA application_id: "ILDG" in ASCII.
inline constexpr qint64 applicationId = 0x494c4447;
/// PRAGMA user_version.
inline constexpr int tableFormat = 1;

/// What a person can do about an error of SQLite; `doing` completes "the ledger could not be …".
Finding finding(const QSqlError& error, const QString& doing, const QString& file);
/// An error of input and output, after which it is not known what is on the disk.
bool isDiskError(const QSqlError& error);

/// Runs one statement.
Outcome<qint64> run(const QSqlDatabase& database, const QString& statement, const QString& doing, const QString& file);
/// The integer that a statement gives.
Outcome<qint64> number(const QSqlDatabase& database, const QString& statement, const QString& file);

/// Makes the tables of an empty ledger, in one transaction.
Outcome<qint64> createTables(const QSqlDatabase& database, const QString& fleetId, const QString& file);
/// Refused unless the open database is a ledger of this fleet in a format that this version knows.
Outcome<qint64> admit(const QSqlDatabase& database, const QString& fleetId, const QString& file);

} // namespace interlude::sqlite
