#pragma once
// How a ledger's file is found, made and opened.

#include "model/ledger/station_lock.h"

#include <QSqlDatabase>

namespace interlude::sqlite {

/// A named connection of Qt, removed again at the end; every query on it must be gone by then.
class Connection {
public:
    Connection(const QString& file, bool readOnly);
    ~Connection();
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;
    QSqlDatabase database;

private:
    QString m_name;
};

/// The name under which a restore puts a ledger down before it exchanges it. While it is there and the ledger is not, nothing
/// is made in its place.
inline QString draftOfRestore(const QString& file) { return file + QStringLiteral(".restoring"); }

/// An open connection to the fleet's ledger, durable in every commit; makes the ledger if there is no file. Takes the
/// station lock into `lock` unless `readOnly`.
Outcome<std::unique_ptr<Connection>> connect(const QString& file, const QString& fleetId, const QString& station,
                                             bool readOnly, std::unique_ptr<StationLock>& lock);

} // namespace interlude::sqlite
