#include "model/planning/plans/plan_report.h"

namespace interlude::planning {

QString word(Goal g) {
    switch (g) {
    case Goal::Cost: return QStringLiteral("cost");
    case Goal::Changeover: return QStringLiteral("changeover");
    case Goal::Tardiness: return QStringLiteral("tardiness");
    case Goal::Makespan: return QStringLiteral("makespan");
    }
    return {};
}

std::optional<Goal> goalFromWord(const QString& w) {
    for (const Goal g : {Goal::Cost, Goal::Changeover, Goal::Tardiness, Goal::Makespan})
        if (word(g) == w) return g;
    return {};
}

double inUnit(Goal g, std::int64_t value) {
    const bool money = g == Goal::Cost || g == Goal::Tardiness;
    return money ? static_cast<double>(value) / 100.0 : static_cast<double>(value);
}

std::optional<double> gapOf(std::int64_t value, const std::optional<std::int64_t>& bound) {
    if (!bound) return {};
    if (*bound == value) return 0.0;
    if (*bound == 0) return {};
    return static_cast<double>(value - *bound) / static_cast<double>(*bound);
}

std::optional<Minute> lateMinutes(const ShopProblem& problem, const TimedJob& job) {
    if (job.job < 0) return 0;
    const std::optional<Minute>& due = problem.problem.jobs[static_cast<std::size_t>(job.job)].due;
    if (due && job.complete >= never) return {};
    return due ? std::max<Minute>(0, job.complete - *due) : 0;
}

} // namespace interlude::planning
