#pragma once
// Jobs from a CSV (RFC 4180). The columns have the names of the keys in jobs.yaml (model/stock/job.h); a further row with
// the same id is another variant of that job:
//
//   id,title,quantity,due,late-cost-per-hour,name,part,support,part-nozzle,support-nozzle,print-minutes,part-cm3,support-cm3
//   7601,hinge,12,2026-03-04T14:00,12,fine,pc-ivory,acr-clear,h04,s04,840,210,40
//   7601,,,,,coarse,pc-ivory,acr-clear,h06,s06,420,215,42
//
// `print-minutes` is a number, or `bay-1: 54; bay-2: 61`; `printers` are separated by semicolons; `envelope-mm` is
// `120 x 80 x 60`. The rows are judged by the same readers as a fleet folder.

#include "model/catalogue/problem.h"
#include "model/shop/shop.h"

namespace interlude {

class Bench;

struct JobImport {
    QList<Job> jobs;   ///< empty when anything stands against them
    int rows = 0;      ///< records after the header
    Problems problems; ///< all at once, in the order of the file; warnings do not stop the import
    bool isGood() const { return !jobs.isEmpty(); }
};

/// More jobs than this are refused: one file would hold up the ledger for minutes.
inline constexpr int mostJobsAtOnce = 5000;

/// `name` is as messages show it.
JobImport readJobsCsv(const Shop& shop, const QString& name, const QByteArray& bytes);
/// Columns that are read, in the order in which a person would write them.
QStringList jobColumns();

/// Enters all of them, or none when anything stands against one (nobody signed in, say). `progress` hears how many are
/// in. Tells the window once, at the end.
Outcome<int> enterJobs(Bench& bench, const QList<Job>& jobs, const std::function<void(int)>& progress = {});

} // namespace interlude
