#pragma once
// What each word of the command line does. Every verb returns its exit code: 0 done, 1 the input is at fault, 2 the call
// is, 3 the program is. Text for people goes to standard output, progress and errors to standard error.

#include <QString>

#include <optional>

namespace interlude::app {

/// Options that every verb on a fleet has.
struct FleetOptions {
    QString folder;
    QString ledger; ///< empty: as fleet.yaml says, else the user's data folder
};

struct ChangeoverOptions {
    FleetOptions fleet;
    QString printer;
    QString to;      ///< job id or setup label
    QString variant; ///< empty: the job's first variant that this printer can take
    QString json;    ///< file, or "-" for standard output; empty: text only
};

struct RecordOptions {
    FleetOptions fleet;
    std::optional<qint64> session; ///< empty: the last one
    QString pdf;
    bool letter = false;
};

struct ImportOptions {
    FleetOptions fleet;
    QString what; ///< jobs, spools or nozzles
    QString file;
    QString who;  ///< initials that sign it; empty: signed by nobody, as the folder's own entries are
    bool dryRun = false;
};

struct RestoreOptions {
    FleetOptions fleet;
    QString backup;            ///< the backup's folder
    bool replaceNewer = false; ///< also a ledger that has events which the backup lacks
};

struct PlanOptions {
    FleetOptions fleet;
    QString goal = QStringLiteral("cost");
    std::optional<double> seconds;
    std::optional<qint64> iterations; ///< given: the clock has no say, and the plan is the same each time
    quint64 seed = 1;
    QString now;                      ///< ISO 8601; empty: the shop's clock
    QString json, ics, csv;           ///< files, or "-" for standard output
    bool progress = false;
};

int newFleet(const QString& folder);
int check(const FleetOptions& options);
int changeover(const ChangeoverOptions& options);
/// The best plan that is found in the time given, beside both yardsticks.
int plan(const PlanOptions& options);
/// Each variant of a job on each printer.
int worth(const FleetOptions& options, const QString& job);
int record(const RecordOptions& options);
/// `recordHash`: hash printed on a record; empty: only the chain is verified.
int verify(const FleetOptions& options, const QString& recordHash);
/// `kind`: lot, nozzle, part or job; `id`: lot, serial, part number or job id.
int trace(const FleetOptions& options, const QString& kind, const QString& id);
/// The rows of a CSV, all or none.
int importCsv(const ImportOptions& options);
int exportFleet(const FleetOptions& options, const QString& out);
/// `out`: a new folder, or one that takes the backup in under a name with its moment.
int backup(const FleetOptions& options, const QString& out);
int restore(const RestoreOptions& options);
int rehearse(const FleetOptions& options, const QString& out);
int openWindow(const FleetOptions& options);

} // namespace interlude::app
