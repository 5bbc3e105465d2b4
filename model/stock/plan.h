#pragma once
// The plan that the shop follows, and what is known beforehand of people and printers: plain values, kept in the ledger.

#include "model/stock/job.h"

namespace interlude {

/// One job's place in a plan, with the times foreseen when it was published, to tell later what came otherwise.
struct PlannedJob {
    JobId job;
    QString variant;
    bool locked = false;
    Instant changeover; ///< when work on the printer begins
    Instant printStart, printEnd;
    bool operator==(const PlannedJob&) const = default;
};

struct PrinterOrder {
    PrinterId printer;
    QList<PlannedJob> jobs;
    bool operator==(const PrinterOrder&) const = default;
};

/// Feedstock set aside for a job, with purge and prime.
struct ReservedFeedstock {
    JobId job;
    MaterialId material;
    Mass need;
    bool operator==(const ReservedFeedstock&) const = default;
};

struct Plan {
    QString goal; ///< what it was made for
    QList<PrinterOrder> printers;
    QList<ReservedFeedstock> reserved;
    bool operator==(const Plan&) const = default;
};

/// People who will not be there.
struct PlannedAbsence {
    QString id;
    int people = 1;
    Instant from, to;
    QString why;
    bool operator==(const PlannedAbsence&) const = default;
};

/// A printer that will not be there.
struct PlannedDowntime {
    QString id;
    PrinterId printer;
    Instant from, to;
    QString why;
    bool operator==(const PlannedDowntime&) const = default;
};

/// As the shop knows it.
struct PublishedPlan {
    Plan plan;
    Instant at;
    QString who;
    qint64 event = 0; ///< its sequence
};

} // namespace interlude
