#pragma once
// Where events live. `append` returns only when the event is durable; a store never changes or forgets an event.
// Not thread-safe: one store is used from one thread.

#include "model/ledger/event.h"

#include <functional>
#include <memory>
#include <optional>

namespace interlude {

/// The first event that does not fit, as `verify` names it.
struct Misfit {
    qint64 sequence = 0;
    QString reason;
};

class EventStore {
public:
    virtual ~EventStore() = default;
    /// Sequence of the last event; 0 when empty.
    virtual qint64 lastSequence() const = 0;
    /// Hash of the last event, or the genesis value.
    virtual QByteArray lastHash() const = 0;
    /// Gives the event its sequence and hash, writes it durably, returns it. On a refusal nothing was written.
    virtual Outcome<Event> append(Event e) = 0;
    /// Calls `each` for every event with sequence > `after`, in order, until it returns false. Refused when a stored
    /// event cannot be read. Returns how many events were handed over.
    virtual Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const = 0;
    /// Recomputes the whole chain; empty when all fit.
    virtual std::optional<Misfit> verify() const = 0;
    /// For the window's foot: where the ledger is, in words a person can use.
    virtual QString location() const = 0;
};

/// Opens (or creates) the SQLite ledger at `file` for the fleet, taking the station lock. Refusals: held by another
/// station (the lock names its holder), not a ledger, a ledger of another fleet, a newer format, disk errors.
/// `readOnly` opens without the lock and refuses every append (for verify, record, export while a window is open).
Outcome<std::unique_ptr<EventStore>> openSqliteStore(const QString& file, const QString& fleetId,
                                                     const QString& station, bool readOnly = false);
/// Events in memory only: tests, rehearsals on a copy.
std::unique_ptr<EventStore> makeMemoryStore(const QString& fleetId);

/// Where the ledger of a fleet lives: `--ledger` if given, else fleet.yaml's `ledger:`, else the user's data folder
/// under the fleet's id. `sqlite:PATH` or a bare path; the option's is relative to the working directory, the file's to the
/// fleet folder. Refused for schemes not built in.
Outcome<QString> ledgerFile(const QString& option, const QString& fromFleet, const QString& fleetFolder,
                            const QString& fleetId);

} // namespace interlude
