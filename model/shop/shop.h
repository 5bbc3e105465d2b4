#pragma once
// The shop: the catalogue with the ledger folded over it. `apply` is the only way that it changes, live and in replay.
// What is over (sessions ended, jobs done, spools and nozzles retired, prints ended) may have been put away: then it is not
// at hand, costs nothing, and is fetched when somebody asks for it.

#include "model/shop/past.h"

namespace interlude {

class Shop {
public:
    /// An empty shop of this catalogue (used for ids and names until a `catalogue-read` event brings its own).
    explicit Shop(CataloguePtr catalogue = {});

    /// A catalogue at hand that a coming `catalogue-read` event may speak of, so that its texts need not be read again.
    void offer(CataloguePtr catalogue);

    /// Folds one event in. A refusal means a ledger that this version cannot read: nothing was changed.
    Outcome<qint64> apply(const Event& e);
    /// Folds in something that is not in the ledger (yet): position and hash stay. For looking without writing.
    Outcome<qint64> assume(const Event& e);

    const Catalogue& catalogue() const { return *m_catalogue; }
    CataloguePtr cataloguePtr() const { return m_catalogue; }
    /// The material of the catalogue, else of an earlier one that the ledger kept; null if never known.
    const Material* material(const MaterialId& id) const;
    const NozzleType* nozzleType(const NozzleTypeId& id) const;
    /// The catalogue of that hash, as the ledger kept it; null if never read here.
    CataloguePtr catalogueByHash(const QString& hash) const;
    /// At hand: all that is not retired, and perhaps some that is.
    const Stock& stock() const { return m_stock; }
    /// By id, whatever has become of it; null when there never was one. For how long it is good: see Past.
    const Spool* spool(const SpoolId& id) const;
    const Nozzle* nozzle(const NozzleSerial& serial) const;
    /// Put away ones included, in the order of receipt.
    QList<Spool> allSpools() const;
    QList<Nozzle> allNozzles() const;
    /// In the order of fleet.yaml.
    QList<PrinterNow> printers() const;
    const PrinterNow* printer(const PrinterId& id) const;
    /// At hand: all that are neither done nor withdrawn, and perhaps some that are; in file order, then order of entry.
    QList<Job> jobs() const;
    QList<Job> allJobs() const;
    const Job* job(const JobId& id) const;
    /// At hand: all that are open, and perhaps some that have ended; in order of their numbers.
    const QMap<qint64, SessionState>& sessions() const { return m_sessions; }
    const SessionState* session(qint64 number) const;
    /// Every session, in order of their numbers.
    QList<SessionSummary> sessionList() const;
    /// Number of the last session; 0 before the first.
    qint64 lastSession() const { return m_lastSession; }
    /// Every print, in the order of their starts.
    QList<PrintRun> allPrints() const;
    /// The open session on a printer, or null.
    const SessionState* openSession(const PrinterId& printer) const;
    qint64 nextSession() const;
    /// The plan that the shop follows; empty until one is published.
    const std::optional<PublishedPlan>& plan() const { return m_plan; }
    /// By id; those that are over stay until they are withdrawn.
    const QMap<QString, PlannedAbsence>& absences() const { return m_absences; }
    const QMap<QString, PlannedDowntime>& downtimes() const { return m_downtimes; }
    std::optional<Milliseconds> exampleOffset() const { return m_exampleOffset; }
    qint64 lastSequence() const { return m_lastSequence; }
    QByteArray lastHash() const { return m_lastHash; }
    std::optional<Instant> lastRecorded() const { return m_lastRecorded; }

private:
    friend class Fold;
    friend class ShopArchive;
    CataloguePtr m_catalogue;
    QMap<QString, qint64> m_catalogueEvents; ///< hash → sequence of the event that brought it first
    mutable QMap<QString, CataloguePtr> m_catalogues; ///< those of them that were needed so far
    QMap<QString, CataloguePtr> m_offered;
    Stock m_stock;
    QMap<PrinterId, PrinterNow> m_printers;
    QMap<JobId, Job> m_jobs;
    QMap<qint64, SessionState> m_sessions;
    QMap<qint64, PrintRun> m_prints; ///< by the event that started them
    qint64 m_lastSession = 0;
    int m_spoolsEver = 0, m_nozzlesEver = 0, m_jobsEver = 0;
    std::shared_ptr<const Past> m_past; ///< null: everything is at hand
    std::optional<PublishedPlan> m_plan;
    QMap<QString, PlannedAbsence> m_absences;
    QMap<QString, PlannedDowntime> m_downtimes;
    std::optional<Milliseconds> m_exampleOffset;
    qint64 m_lastSequence = 0;
    QByteArray m_lastHash;
    std::optional<Instant> m_lastRecorded;
};

/// Why this may not happen now (refusals), and what should be known before it does (the rest). `who` signs; empty is
/// refused for everything that a person does.
/// `happenedAt` = `now` unless it is entered late.
Findings objections(const Shop& shop, const Happening& h, const QString& who, Instant now,
                    std::optional<Instant> happenedAt = {});

/// The id that a scan of this step stands for: the expected one, or another nozzle or spool that serves as well.
/// Refused when it does not match, saying what was scanned instead.
Outcome<QString> acceptScan(const Shop& shop, const SessionState& session, const PlannedStep& step, int scanIndex,
                            const QString& scanned);

/// The whole state as JSON, in a fixed order: equal texts mean equal shops. The position in the ledger is part of it.
QJsonObject stateJson(const Shop& shop);

} // namespace interlude
