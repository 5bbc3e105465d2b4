#pragma once
// One opened shop: catalogue, ledger, clock, and the way in for every act. Views hold a reference, read `shop()`, call
// `perform`, and redraw on `changed`. One thread.

#include "model/clock/clock.h"
#include "model/ledger/store.h"
#include "model/shop/shop.h"

#include <QObject>

#include <functional>

namespace interlude {

class ImportedOpenings;
class Snapshot;

class Workbench final : public QObject {
    Q_OBJECT
public:
    ~Workbench() override;

    /// Replays the ledger, imports what is new in the catalogue's opening entries, and records a changed catalogue.
    /// `machineClock` is borrowed and must outlive the workbench; an example fleet's clock is shifted by the offset that
    /// the ledger remembers. `snapshot` names a file beside the ledger in which the folded shop is kept, so that the next
    /// opening need not read everything; without a name everything is read and stays at hand.
    static Outcome<std::unique_ptr<Workbench>> open(CataloguePtr catalogue, std::unique_ptr<EventStore> store,
                                                    const Clock& machineClock, const QString& station,
                                                    const QString& snapshot = {});
    /// The same without writing anything: for printing and verifying beside a running window. What opening would record
    /// (a changed catalogue, new opening entries) is assumed; the position in the ledger stays that of the store.
    static Outcome<std::unique_ptr<Workbench>> look(CataloguePtr catalogue, std::unique_ptr<EventStore> store,
                                                    const Clock& machineClock, const QString& snapshot = {});

    const Shop& shop() const { return m_shop; }
    const Catalogue& catalogue() const { return m_shop.catalogue(); }
    const EventStore& store() const { return *m_store; }
    const Clock& clock() const { return *m_clock; }
    Instant now() const { return m_clock->now(); }
    bool isExample() const;
    /// Opening entries that differ from what was imported earlier; reported, never applied.
    const Problems& openingDifferences() const { return m_differences; }

    /// What stands against it, now.
    Findings objections(const Happening& h, const QString& who) const;
    /// Checks, writes durably, folds, then tells everybody. `happenedAt` in the past = entered late. On a refusal
    /// nothing has happened; the finding is what to show. `recordedAt` is what the wall clock says: after it was set back
    /// it may be earlier than that of the event before; the sequence orders events, and a ClockJumped tells why.
    Outcome<Event> perform(const Happening& h, const QString& who, std::optional<Instant> happenedAt = {});
    /// Takes over another reading of the fleet folder (the *Reload* button): a changed catalogue, new opening entries.
    /// The last event recorded; a notice `reload-unchanged` when there was nothing to record.
    Outcome<Event> reload(CataloguePtr catalogue);
    /// Called about once a second: notices a wall clock that jumped (by more than 5 s) or a machine that slept (more than
    /// 60 s between two calls), records it, and tells. A good moment to keep a snapshot, too, when many events have come.
    void watchClock();

Q_SIGNALS:
    void changed(const interlude::Event& event);
    /// The wall clock moved by `by` against the running clock; 0: the machine slept.
    void clockJumped(qint64 byMs);

private:
    Workbench(std::shared_ptr<EventStore> store, const Clock& machineClock);
    /// From the snapshot, if there is one that counts, else from the ledger's beginning.
    Outcome<qint64> replay(const CataloguePtr& catalogue);
    Outcome<qint64> replayAll(const CataloguePtr& catalogue);
    /// Folds what the ledger has after the shop's position, and looks whether its chain holds there. In between, `often`.
    Outcome<qint64> replayRest(const std::function<bool()>& often = {});
    void keepSnapshot(qint64 least);
    Outcome<qint64> begin(const CataloguePtr& catalogue);
    /// Records a changed catalogue and new opening entries; the last event recorded, if any.
    Outcome<std::optional<Event>> takeOver(const CataloguePtr& catalogue);
    /// Writes durably, folds, tells. Unchecked.
    Outcome<Event> keep(const Happening& h, const QString& who = {}, std::optional<Instant> happenedAt = {});
    void shiftClock(Milliseconds offset);
    void noticeJump();

    std::shared_ptr<EventStore> m_store;
    const Clock* m_machineClock;
    std::unique_ptr<Clock> m_shifted;
    const Clock* m_clock;
    QString m_station;
    Shop m_shop;
    std::unique_ptr<ImportedOpenings> m_imported;
    std::shared_ptr<Snapshot> m_snapshot;
    bool m_readOnly = false;
    bool m_snapshotFailed = false; ///< once is enough: it is tried again at the next opening
    bool m_opened = false; ///< whole: from now on a snapshot may be kept at the end
    Problems m_differences;
    std::optional<Instant> m_wallSeen;
    Milliseconds m_runningSeen{0};
};

} // namespace interlude
