#pragma once
// A plan with everything that is said about it, as JSON, CSV, iCalendar and text for people (design sections 6 and 10).

#include "model/planning/plans/reservations.h"

#include <QJsonObject>

namespace interlude::planning {

struct PlanReport {
    Goal goal = Goal::Cost;
    Timetable timetable;
    Orders orders;
    std::optional<std::int64_t> bound; ///< in the goal's unit, for the same placed jobs
    std::optional<double> seconds;     ///< null when `iterations` limited the search
    std::int64_t iterations = 0;
    std::uint64_t seed = 0;
    Totals firstInFirstOut, sameSetupFirst;
    QList<Reservation> reservations;
};

QString word(Goal g);
std::optional<Goal> goalFromWord(const QString& w);
/// What the goal counts, in its unit for people: money, minutes, money × minutes an hour.
double inUnit(Goal g, std::int64_t value);
/// (value − bound) / bound; 0 when equal; empty when the bound is 0 or unknown.
std::optional<double> gapOf(std::int64_t value, const std::optional<std::int64_t>& bound);

/// How late the job comes out: 0 in time, without a due date, and for a part of no known job. None where it has a due date
/// and its part never comes out (it is named as not placed).
std::optional<Minute> lateMinutes(const ShopProblem& problem, const TimedJob& job);

QJsonObject toJson(const ShopProblem& problem, const PlanReport& report);
/// RFC 5545: one event a changeover with the people needed.
QByteArray toCalendar(const ShopProblem& problem, const PlanReport& report, const Catalogue& catalogue);
/// RFC 4180: one line a job.
QByteArray toCsv(const ShopProblem& problem, const PlanReport& report, const Catalogue& catalogue);
/// For people: the order of each printer with times, then the figures.
QString toText(const ShopProblem& problem, const PlanReport& report, const Catalogue& catalogue);

} // namespace interlude::planning
