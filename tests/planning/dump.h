#pragma once
// A shop and its timetable in lines that a person can follow with a pencil.

#include "model/planning/timetable/timetable.h"

#include <string>

namespace interlude::tests {

std::string shown(const planning::Problem& problem, const planning::Orders& orders);
/// Every number that must agree, one job a line and one piece of work a line.
std::string shown(const planning::Timetable& timetable);
std::string shown(const planning::Totals& totals);

} // namespace interlude::tests
