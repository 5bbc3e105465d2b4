#pragma once
// Ledgers for tests: a folder that goes away, events that look like real ones, SQL behind the store's back.

#include "model/ledger/store.h"

#include <QFile>
#include <QJsonArray>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QTemporaryDir>
#include <QTest>

namespace interlude::tests {

inline const QString fleet = QStringLiteral("two-printers");

/// The n-th event of a test ledger; every member differs from its neighbours'.
inline Event numbered(qint64 n) {
    Event e;
    e.recordedAt = instantFromMs(1772432400000 + n * 60000); // 2026-03-02T06:20Z and on
    e.happenedAt = n % 3 == 0 ? e.recordedAt - std::chrono::minutes(10) : e.recordedAt;
    e.station = n % 2 == 0 ? QStringLiteral("bench-1") : QStringLiteral("büro");
    e.who = n % 5 == 0 ? QString() : QStringLiteral("ML");
    e.kind = n % 2 == 0 ? QStringLiteral("step-confirmed") : QStringLiteral("temperature-read");
    e.payload = {{QStringLiteral("session"), n / 10},
                 {QStringLiteral("note"), QStringLiteral("line %1\n\"ok\" 60 °C").arg(n)},
                 {QStringLiteral("readings"), QJsonArray{n * 1000, -n}}};
    return e;
}

struct Folder {
    QTemporaryDir dir;
    QString file(const QString& name = QStringLiteral("ledger.sqlite")) const { return dir.filePath(name); }
};

inline Outcome<std::unique_ptr<EventStore>> opened(const QString& file, bool readOnly = false) {
    return openSqliteStore(file, fleet, QStringLiteral("bench-1"), readOnly);
}

/// A closed ledger of `count` events.
inline void fill(const QString& file, int count) {
    auto store = opened(file);
    QVERIFY2(store, qPrintable(store ? QString() : sentence(store.error())));
    for (int n = 1; n <= count; ++n) QVERIFY((*store)->append(numbered(n)));
}

/// A second connection, as a person with a database tool would have.
class Sql {
public:
    explicit Sql(const QString& file) : m_name(QStringLiteral("tamper")) {
        QSqlDatabase db = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), m_name);
        db.setDatabaseName(file);
        db.open();
    }
    ~Sql() {
        QSqlDatabase::database(m_name).close();
        QSqlDatabase::removeDatabase(m_name);
    }
    /// Empty when it went well.
    QString run(const QString& statement, const QVariantList& values = {}) {
        QSqlQuery query(QSqlDatabase::database(m_name));
        query.prepare(statement);
        for (const QVariant& v : values) query.addBindValue(v);
        return query.exec() ? QString() : query.lastError().text();
    }
    QVariant value(const QString& statement) {
        QSqlQuery query(QSqlDatabase::database(m_name));
        return query.exec(statement) && query.next() ? query.value(0) : QVariant();
    }
    /// Takes the guard against slips away.
    void unlockEvents() {
        run(QStringLiteral("DROP TRIGGER event_stays"));
        run(QStringLiteral("DROP TRIGGER event_kept"));
        run(QStringLiteral("PRAGMA ignore_check_constraints = ON"));
    }

private:
    QString m_name;
};

inline QByteArray bytesOf(const QString& file) {
    QFile f(file);
    return f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray();
}
inline void writeBytes(const QString& file, const QByteArray& bytes) {
    QFile f(file);
    QVERIFY(f.open(QIODevice::WriteOnly));
    QCOMPARE(f.write(bytes), bytes.size());
}

} // namespace interlude::tests
