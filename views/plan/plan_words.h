#pragma once
// How the Plan tab says numbers, times and names: in one way on all its parts.

#include "views/plan/plan_desk.h"

namespace interlude::plan_words {

/// Drags between the list and the board carry job numbers, separated by commas.
inline const QString mimeType = QStringLiteral("application/x-interlude-jobs");
QByteArray jobsToMime(const std::vector<int>& jobs);
/// Numbers that the problem does not know are left out.
std::vector<int> jobsFromMime(const QByteArray& bytes, const planning::ShopProblem& problem);

/// Where the pointer is from a drag's picture: right below it, so that the price that the board says beside the pointer is seen.
QPoint aboveThePointer(const QSizeF& picture);

/// Whole units of money with grouping: "4,310", "−70".
QString money(planning::Cents cents);
/// "+21", "−4", "0": a change of money.
QString moneyChange(planning::Cents cents);
/// As short as a list wants it: "20:00" today, "Wed" within six days, else "12 Mar".
QString shortDay(const Bench& bench, Instant t);
/// Hours with one decimal: "31.5".
QString hours(planning::Minute minutes);
/// "−1.5", "+2.0", "0": a change in hours.
QString hoursChange(planning::Minute minutes);
/// "45 min", "2 h", "2 h 30 min".
QString length(planning::Minute minutes);
/// The printer's name as people say it.
QString printer(const PlanDesk& desk, int printer);
/// "7412 hinge".
QString job(const Job& job);
/// Local time of a minute of the draft: "10:42", "Thu 04:40".
QString time(const Bench& bench, const planning::ShopProblem& problem, planning::Minute m);
QString goal(planning::Goal g);
/// The goal's value in its unit: "4,310 EUR", "31.5 h".
QString value(const Bench& bench, planning::Goal g, std::int64_t value);
/// Changeovers that a plan makes, on all printers.
int changeovers(const planning::Timetable& timetable);

} // namespace interlude::plan_words
