#pragma once
// What a shop has put away, fetched one by one. The shop asks here only for what is not at hand, so what is at hand always
// counts more.

#include "model/shop/session_state.h"

namespace interlude {

class Past {
public:
    virtual ~Past() = default;

    // -- null when nothing of that name was put away. What is pointed at is good until something is put away again, and
    // until some dozens of its kind have been asked for since.
    virtual const SessionState* session(qint64 number) const = 0;
    virtual const Job* job(const JobId& id) const = 0;
    virtual const Spool* spool(const SpoolId& id) const = 0;
    virtual const Nozzle* nozzle(const NozzleSerial& serial) const = 0;

    // -- all that was put away, in no promised order
    virtual QList<SessionSummary> sessions() const = 0;
    virtual QList<Job> jobs() const = 0;
    virtual QList<Spool> spools() const = 0;
    virtual QList<Nozzle> nozzles() const = 0;
    virtual QList<PrintRun> prints() const = 0;

    /// The import of an opening entry, by `kind/id`.
    virtual std::optional<QJsonObject> opening(const QString& key) const = 0;
    /// The catalogue that this event of the ledger brought; null when it cannot be read.
    virtual CataloguePtr catalogue(qint64 event) const = 0;
};

} // namespace interlude
