#include "app/verbs/opened_shop.h"

#include "model/planning/plans/plan_maker.h"

#include <QJsonDocument>

#include <cstdio>

namespace interlude::app {

namespace {

/// Local time in the shop's zone, or with an offset or Z.
std::optional<Instant> readTime(const QString& text, const QTimeZone& zone) {
    QDateTime t = QDateTime::fromString(text, Qt::ISODate);
    if (!t.isValid()) return {};
    if (t.timeSpec() == Qt::LocalTime) t = QDateTime(t.date(), t.time(), zone);
    return instantOf(t);
}

void sayProgress(planning::Goal goal, const planning::Progress& p) {
    std::fprintf(stderr, "\r%6.1f s  %lld moves  %s %.2f  not placed %d ", p.seconds, static_cast<long long>(p.iterations),
                 qPrintable(planning::word(goal)), planning::inUnit(goal, p.best.value), p.best.notPlaced);
    std::fflush(stderr);
}

} // namespace

int plan(const PlanOptions& options) {
    const auto goal = planning::goalFromWord(options.goal);
    if (!goal) {
        complain(QStringLiteral("There is no goal %1; one of cost, changeover, tardiness, makespan.").arg(options.goal));
        return 2;
    }
    const SystemClock clock;
    const auto bench = openShop(options.fleet, Access::Look, clock);
    if (!bench) return 1;
    Instant now = bench->now();
    if (!options.now.isEmpty()) {
        const auto given = readTime(options.now, bench->catalogue().fleet.zone);
        if (!given) {
            complain(QStringLiteral("--now %1 is no time; give it like 2026-03-02T06:30.").arg(options.now));
            return 2;
        }
        now = *given;
    }
    planning::ShopProblem problem = planning::shopProblem(bench->shop(), now);
    planning::SearchOptions search;
    search.goal = *goal;
    search.seed = options.seed;
    search.iterations = options.iterations;
    if (!options.iterations) search.seconds = options.seconds.value_or(10.0);
    if (options.progress) search.progress = [&](const planning::Progress& p) { sayProgress(*goal, p); };
    const planning::PlanReport report = planning::makePlan(bench->shop(), problem, search);
    if (options.progress) std::fputc('\n', stderr);
    const Catalogue& c = bench->catalogue();
    bool written = true;
    if (!options.json.isEmpty()) written &= writeFile(options.json, QJsonDocument(toJson(problem, report)).toJson());
    if (!options.ics.isEmpty()) written &= writeFile(options.ics, toCalendar(problem, report, c));
    if (!options.csv.isEmpty()) written &= writeFile(options.csv, toCsv(problem, report, c));
    if (!QStringList{options.json, options.ics, options.csv}.contains(QStringLiteral("-"))) say(toText(problem, report, c));
    return written ? 0 : 1;
}

} // namespace interlude::app
