#include "tests/planning/minute_twin.h"

#include "tests/planning/minutes.h"

#include <algorithm>

namespace interlude::tests {

namespace {

Cents roundedPerHour(Cents perHour, Minute minutes) {
    return (perHour * minutes + 30) / 60; // to the nearest cent
}

void addJob(Totals& totals, const Problem& problem, const TimedJob& job) {
    if (job.complete >= never)
        return; // a running job that never comes out is not placed: it adds nothing
    totals.turnaround += job.turnaround;
    // "`changeover` = minutes of the changeovers' internal segments, without waits for crew, preparation and part
    // removal."
    totals.changeover += job.changeoverMinutes;
    // "`hands_on_minutes` = Σ people × minutes."
    for (const TimedWork& w : job.work)
        totals.handsOn += w.work->people * (w.end - w.start);
    if (job.change && job.change->cleanOut)
        ++totals.cleanOuts;
    if (job.job < 0)
        return;
    const JobNumbers& numbers = problem.jobs[static_cast<size_t>(job.job)];
    totals.makespan = std::max(totals.makespan, job.complete);
    const Minute late = numbers.due ? std::max<Minute>(0, job.complete - *numbers.due) : 0;
    totals.lateJobs += late > 0 ? 1 : 0;
    totals.weightedTardiness += numbers.lateCostPerHour * late;
    // "Σ late-cost·max(0, lateness) + Σ hourly-rate·(print + turnaround) + Σ holding-cost-per-hour × hours from release
    // (or `now`) to completion + purged material + clean-out consumables", "rounded per term".
    totals.cost += roundedPerHour(numbers.lateCostPerHour, late);
    totals.cost += roundedPerHour(problem.printers[static_cast<size_t>(job.printer)].hourlyRate,
                                  job.printEnd - job.printStart + job.turnaround);
    totals.cost +=
        roundedPerHour(numbers.holdingCostPerHour, std::max<Minute>(0, job.complete - numbers.release.value_or(0)));
    if (job.change)
        totals.cost += job.change->material;
}

} // namespace

Timetable minuteTwin(const Problem& problem, Changes& changes, const Orders& orders) {
    std::set<int> without;
    while (true) {
        Minutes minutes(problem, changes, orders, without);
        if (!minutes.run()) {
            without.insert(minutes.toDrop.begin(), minutes.toDrop.end());
            without.insert(minutes.impossible.begin(), minutes.impossible.end());
            continue;
        }
        Timetable result;
        result.printers = minutes.result();
        std::set<int> notPlaced = without;
        notPlaced.insert(minutes.impossible.begin(), minutes.impossible.end());
        notPlaced.insert(minutes.neverOut.begin(), minutes.neverOut.end());
        notPlaced.insert(orders.leftOut.begin(), orders.leftOut.end());
        for (const int job : notPlaced)
            result.notPlaced.push_back({job, {}});
        result.totals.notPlaced = static_cast<int>(notPlaced.size());
        for (const auto& printer : result.printers)
            for (const TimedJob& job : printer)
                addJob(result.totals, problem, job);
        return result;
    }
}

} // namespace interlude::tests
