#pragma once
// What the board says in words: prices, places, lateness, the tip of a job, the sentence for assistive technology.

#include "views/plan/board_geometry.h"
#include "views/plan/plan_desk.h"

namespace interlude::board {

/// "40 min", "2.5 h", "30 h", "3 d": short, for small places.
QString roughly(planning::Minute m);
/// "late 2.5 h".
QString lateText(planning::Minute late);
/// "+21 EUR · turnaround +48 min · 1 more job late".
QString priceText(const planning::Price& price, const QString& currency);
/// "prints Tue 08:20 to 12:20".
QString printText(PlanDesk& desk, planning::Minute from, planning::Minute to);
/// "Bay 2, before 7414", "Bay 2, last".
QString placeText(PlanDesk& desk, const std::vector<BoardRow>& rows, const DropPlace& place);
/// "7402", "7402 and 7403", "7402 and 4 others".
QString jobsText(const PlanDesk& desk, const std::vector<int>& jobs);
/// All times of a block, a line each.
QString tip(PlanDesk& desk, const BoardRow& row, const BoardBlock& block);
/// "6 printers, 72 jobs, 5 late; the last ends Thu 04:40".
QString summary(PlanDesk& desk, const std::vector<BoardRow>& rows);
/// One job with place, times and flags, for assistive technology.
QString jobSentence(PlanDesk& desk, const std::vector<BoardRow>& rows, int row, int block);

} // namespace interlude::board
