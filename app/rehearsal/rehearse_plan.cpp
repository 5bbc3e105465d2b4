#include "app/rehearsal/rehearse_plan.h"

#include "model/planning/plans/plan_maker.h"
#include "model/planning/plans/published.h"
#include "views/plan/plan_paper.h"

#include <QFile>
#include <QJsonDocument>

namespace interlude::app {

namespace {

/// Moves to try: so few that the rehearsal stays quick, and the same plan each time.
constexpr std::int64_t moves = 3000;

std::optional<Finding> write(const QDir& dir, const QString& name, const QByteArray& text) {
    QFile file(dir.filePath(name));
    if (file.open(QIODevice::WriteOnly) && file.write(text) == text.size() && file.flush()) return {};
    return refusal(QStringLiteral("write"), QStringLiteral("%1 cannot be written: %2").arg(file.fileName(), file.errorString()))
        .value();
}

planning::Orders withFirst(const planning::ShopProblem& problem, const PrinterId& printer, const JobId& job,
                           const QString& variant) {
    planning::Orders orders = problem.noOrders();
    const int number = problem.jobNumbers.value(job, -1), at = problem.printerNumbers.value(printer, -1);
    if (number < 0 || at < 0) return orders;
    if (const int v = problem.jobs[number].variantNumber(variant); v >= 0)
        orders.printers[static_cast<std::size_t>(at)] = {{number, v}};
    std::erase(orders.leftOut, number);
    orders.locked[static_cast<std::size_t>(number)] = 1;
    return orders;
}

} // namespace

Outcome<int> publishPlan(Workbench& bench, const QString& who, const PrinterId& printer, const JobId& job,
                         const QString& variant, const QDir& dir) {
    planning::ShopProblem problem = planning::shopProblem(bench.shop(), bench.now());
    planning::SearchOptions options;
    options.iterations = moves;
    options.start = withFirst(problem, printer, job, variant);
    const planning::PlanReport report = planning::makePlan(bench.shop(), problem, options);
    const auto done = bench.perform(
        act::PlanPublished{planning::planOf(problem, report.orders, report.timetable, report.goal, report.reservations)}, who);
    if (!done) return tl::unexpected(done.error());
    const Catalogue& c = bench.catalogue();
    if (const auto bad = write(dir, QStringLiteral("plan.json"), QJsonDocument(toJson(problem, report)).toJson()))
        return tl::unexpected(*bad);
    if (const auto bad = write(dir, QStringLiteral("plan.csv"), toCsv(problem, report, c))) return tl::unexpected(*bad);
    if (const auto bad = write(dir, QStringLiteral("plan.ics"), toCalendar(problem, report, c))) return tl::unexpected(*bad);
    const PlanOnPaper paper{bench.shop(), problem, report.timetable, QStringLiteral("published by %1").arg(who), bench.now()};
    return plan_paper::writeWeekPdf(paper, toZone(bench.now(), c.fleet.zone).date(), plan_paper::Wide::A4,
                                    dir.filePath(QStringLiteral("plan-week.pdf")));
}

} // namespace interlude::app
