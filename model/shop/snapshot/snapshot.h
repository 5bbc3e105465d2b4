#pragma once
// A snapshot of the folded shop beside its ledger, so that opening costs what has happened since and not what happened in
// years. Never truth: it counts only if the same program folded it, the ledger still holds the event that it was made at
// (with that hash), and its checksums hold; else the ledger is read from its beginning and the snapshot made anew.
// Nothing that a person does waits for it, and no failure of it is anybody's trouble.

#include "model/ledger/store.h"
#include "model/shop/openings.h"
#include "model/shop/snapshot/shop_archive.h"
#include "model/shop/snapshot/snapshot_file.h"

#include <map>

namespace interlude {

class Snapshot final : public Past, public std::enable_shared_from_this<Snapshot> {
public:
    /// A shop as it was kept.
    struct Kept {
        Shop shop;
        ImportedOpenings imported;
    };

    /// Where the snapshot of this ledger lies.
    static QString fileBeside(const QString& ledger) { return ledger + QStringLiteral(".snapshot"); }
    /// Null when the file cannot be had. A reader never writes.
    static std::shared_ptr<Snapshot> open(const QString& file, std::shared_ptr<const EventStore> store, bool readOnly);

    /// Empty when there is none that counts. `atHand`: the catalogue of the folder.
    std::optional<Kept> load(const CataloguePtr& atHand);
    /// The event at which the last one was made; 0: none that counts.
    qint64 sequence() const { return m_sequence; }

    /// A shop is folded from nothing: what is put away from now on counts with the next `write`.
    bool beginAfresh(const CataloguePtr& atHand);
    /// Puts away what is over, so that a long ledger needs little memory. Only after beginAfresh.
    bool putAway(Shop& shop, ImportedOpenings& imported);
    /// Keeps the shop as it is and puts away what is over. When it fails after beginAfresh, what was put away is lost, and
    /// the ledger must be folded again; else nothing has changed.
    bool write(Shop& shop, ImportedOpenings& imported);

    const SessionState* session(qint64 number) const override;
    const Job* job(const JobId& id) const override;
    const Spool* spool(const SpoolId& id) const override;
    const Nozzle* nozzle(const NozzleSerial& serial) const override;
    QList<SessionSummary> sessions() const override;
    QList<Job> jobs() const override;
    QList<Spool> spools() const override;
    QList<Nozzle> nozzles() const override;
    QList<PrintRun> prints() const override;
    std::optional<QJsonObject> opening(const QString& key) const override;
    CataloguePtr catalogue(qint64 event) const override;

private:
    using Kind = SnapshotFile::Kind;
    /// Things of one kind that were asked for.
    template <class T> using Asked = std::map<QString, std::unique_ptr<T>>;

    Snapshot(std::unique_ptr<SnapshotFile> file, std::shared_ptr<const EventStore> store);
    template <class T, class Stored>
    const T* fetch(Asked<T>& asked, Kind kind, const QString& name, const Stored& unwrap) const;
    template <class Stored, class Unwrap> auto all(Kind kind, const Unwrap& unwrap) const;
    bool putRows(const Shop& shop, const Over& over, const ImportedOpenings& imported);
    void forgetAsked();
    /// The ledger folded from its beginning, with everything at hand: the answer to all questions once the file is damaged.
    const Kept& whole() const;

    std::unique_ptr<SnapshotFile> m_file;
    std::shared_ptr<const EventStore> m_store;
    CataloguePtr m_atHand; ///< need not be read again
    qint64 m_sequence = 0;
    bool m_afresh = false;
    mutable Asked<SessionState> m_sessionsAsked;
    mutable Asked<Job> m_jobsAsked;
    mutable Asked<Spool> m_spoolsAsked;
    mutable Asked<Nozzle> m_nozzlesAsked;
    mutable std::optional<QList<SessionSummary>> m_summaries;
    mutable std::unique_ptr<Kept> m_whole;
};

} // namespace interlude
