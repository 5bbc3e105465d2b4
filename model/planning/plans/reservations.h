#pragma once
// Feedstock for a plan: what each job takes, with purge and prime, in the order in which the prints start; and which jobs
// are short of it or must wait for a drying. A job that is short is placed all the same, and flagged.

#include "model/planning/problem/shop_problem.h"
#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

struct Reservation {
    JobId job;
    MaterialId material;
    Mass need;
    bool isShort = false;    ///< the shop does not hold enough beside what earlier prints take
    bool dryFirst = false;   ///< what serves it is overdue for drying (or of unknown drying)
    bool unknown = false;    ///< a spool of unknown weight may or may not suffice
    QString reason;          ///< in plain words, also that another printer has the spool then; empty when all is well
};

/// For every job of the timetable that is still to be printed, part material before support; which spools serve is SpoolBook's
/// business. A job that wants one lot (`same-lot`) is served by spools of one lot.
QList<Reservation> reservationsOf(const Shop& shop, const ShopProblem& problem, const Timetable& timetable);

/// What the published plan sets aside of one spool for one of its jobs.
struct SpoolKept {
    JobId job;
    MaterialId material;
    SpoolId spool;
    Mass mass;
};
/// For the jobs of the published plan that still wait and are in no open session, in the order of the plan's reservations and,
/// for one job and material, in that in which they are loaded. A spool of unknown weight serves none. The plan itself reserves
/// grams of a material; the changeover takes the spool that is kept where it may.
QList<SpoolKept> spoolsKept(const Shop& shop, Instant now);

struct SpoolShare {
    JobId job;
    Mass mass;
};
/// The same by spool.
QHash<SpoolId, QList<SpoolShare>> spoolsReserved(const Shop& shop, Instant now);

} // namespace interlude::planning
