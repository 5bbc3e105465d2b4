#pragma once
// A ledger of years, made in minutes: whole changeovers on the sample fleet, one after the other on all its printers, with
// the jobs, spools, nozzles, prints, plans and starts of the program around them. Every event follows from the shop as it
// stands; only the checks of acts and the sync of every event are left out.

#include "model/shop/snapshot/snapshot.h"

#include <QRandomGenerator>

namespace interlude::bench {

class LedgerMaker {
public:
    explicit LedgerMaker(CataloguePtr catalogue);
    ~LedgerMaker();

    /// Makes the file with at least so many events (the last changeover is finished). What is wrong is said on standard
    /// error, and false.
    bool make(const QString& file, qint64 events);

private:
    bool open(const QString& file);
    void beginning();
    void changeover(const PrinterId& printer);
    bool carryOut(const PrinterId& printer, const Job& job, const Variant& variant);
    std::optional<Changeover> planned(const PrinterId& printer, const Job& job, const Variant& variant);
    void steps(qint64 session, const Changeover& c);
    void provide(const MaterialId& material, Volume volume);
    void tidy();
    void around(const Job& job);
    Job wanted(const PrinterId& printer);
    void say(const Happening& h, bool byPerson = true);

    CataloguePtr m_catalogue;
    std::unique_ptr<sqlite::Connection> m_connection;
    std::unique_ptr<QSqlQuery> m_insert;
    std::shared_ptr<Snapshot> m_aside; ///< takes what is over, so that memory stays small
    Shop m_shop;
    ImportedOpenings m_imported;
    QRandomGenerator m_random{20260302};
    Instant m_now;
    qint64 m_sequence = 0;
    QByteArray m_hash;
    int m_jobs = 0, m_spools = 0, m_nozzles = 0;
    QList<JobId> m_lately;
    QString m_wrong;
};

} // namespace interlude::bench
