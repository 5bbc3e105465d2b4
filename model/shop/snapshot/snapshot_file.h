#pragma once
// The file of a snapshot: what was put away, each thing in a row of its own, and one row of what was at hand. It is a cache
// and never truth: it may be deleted at any time, every row carries a checksum, and whatever is wrong with it is answered by
// reading the ledger again. Words of SQL live here and nowhere else of the snapshot.

#include "model/ledger/sqlite_connection.h"

#include <QJsonObject>
#include <QMap>
#include <QSqlQuery>

#include <functional>
#include <map>
#include <optional>

namespace interlude {

class SnapshotFile {
public:
    enum class Kind { Session, Summary, Print, Job, Spool, Nozzle, Opening };
    /// At which event of the ledger it was made, and by what.
    struct Stamp {
        QByteArray fingerprint; ///< of the program's way to fold and to write things down
        qint64 sequence = 0;
        QByteArray hash; ///< of that event
    };
    struct Live {
        Stamp stamp;
        QJsonObject atHand;
    };

    /// Makes the file if there is none, and anew if it cannot be used. Null when it cannot be had. A reader keeps the state
    /// that it found, whatever is written meanwhile.
    static std::unique_ptr<SnapshotFile> open(const QString& file, bool readOnly);
    ~SnapshotFile();

    /// Empty when there is none, or it is damaged.
    std::optional<Live> live() const;
    /// Empty when there is none of that name.
    std::optional<QJsonObject> get(Kind kind, const QString& name) const;
    /// False when some cannot be read.
    bool each(Kind kind, const std::function<void(const QJsonObject&)>& take) const;
    /// A row could not be read, or was not what had been written: nothing here is to be believed any more, and the file is
    /// deleted at the end.
    bool isDamaged() const { return m_damaged; }
    void condemn() const { m_damaged = true; }

    // -- writing; all between begin and commit counts together or not at all
    bool begin();
    bool forgetAll();
    bool put(Kind kind, const QString& name, const QJsonObject& value);
    bool putLive(const Live& live);
    bool commit();
    void rollback();

private:
    SnapshotFile(QString file, bool readOnly);
    bool prepare();
    bool run(const char* statement) const;
    QSqlQuery* prepared(std::map<Kind, QSqlQuery>& known, Kind kind, const QString& statement) const;
    std::optional<QJsonObject> opened(const QByteArray& bytes) const;

    QString m_file;
    bool m_readOnly;
    mutable bool m_damaged = false;
    std::unique_ptr<sqlite::Connection> m_connection;
    mutable std::map<Kind, QSqlQuery> m_gets, m_puts; ///< gone before their connection
};

} // namespace interlude
