#pragma once
// The plan on paper: a week of all printers as a board (A4 or A3, Letter or Tabloid, landscape) and below it as a table of jobs with their
// times, and one printer's day as a list of what is done when, by how many. Light colours, readable in black and white.

#include "model/planning/problem/shop_problem.h"
#include "model/planning/timetable/timetable.h"
#include "views/paper/sheet.h"

namespace interlude {

/// What is printed: a plan at a moment, and which one it is.
struct PlanOnPaper {
    const Shop& shop;
    const planning::ShopProblem& problem;
    const planning::Timetable& timetable;
    QString which;     ///< "draft, not published", "published Mon 06:40 by AV"
    Instant printedAt;
};

namespace plan_paper {

enum class Wide { A4, A3, Letter, Tabloid };
QPageLayout weekLayout(Wide size);

/// Seven days from the local midnight of `from`. The page layout of `device` is set already (`weekLayout`). The number of
/// pages; 0 when the device refuses.
int paintWeek(const PlanOnPaper& plan, QDate from, QPagedPaintDevice& device);
Outcome<int> writeWeekPdf(const PlanOnPaper& plan, QDate from, Wide size, const QString& file);

/// The shop's name as it stands on paper: an example says so.
QString shopName(const Catalogue& catalogue);

/// What is done at one printer on that local day.
paper::Sheet daySheet(const PlanOnPaper& plan, int printer, QDate day, paper::Size size);
Outcome<int> writeDayPdf(const PlanOnPaper& plan, int printer, QDate day, const QString& file, paper::Size size = paper::usualSize());

} // namespace plan_paper

} // namespace interlude
