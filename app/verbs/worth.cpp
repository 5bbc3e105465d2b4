#include "app/verbs/opened_shop.h"

#include "model/planning/dispatch.h"
#include "model/planning/plans/published.h"
#include "model/planning/plans/worth_it.h"

namespace interlude::app {

namespace {

QString hours(planning::Minute m) {
    return QStringLiteral("%1:%2").arg(m / 60).arg(m % 60, 2, 10, QLatin1Char('0'));
}

QString money(planning::Cents c) {
    return QString::number(static_cast<double>(c) / 100.0, 'f', 2);
}

QString changing(planning::Minute m, bool cleanOut) {
    return QStringLiteral("%1%2").arg(hours(m), cleanOut ? QStringLiteral(" c") : QString());
}

QString breakEven(const planning::WorthRow& r) {
    if (r.breakEven) return QStringLiteral("from %1 cm³").arg(r.breakEven->cm3(), 0, 'f', 1);
    return r.neverPays ? QStringLiteral("never") : QStringLiteral("—");
}

} // namespace

int worth(const FleetOptions& options, const QString& job) {
    const SystemClock clock;
    const auto bench = openShop(options, Access::Look, clock);
    if (!bench) return 1;
    planning::ShopProblem problem = planning::shopProblem(bench->shop(), bench->now());
    const auto number = problem.jobNumbers.constFind(job);
    if (number == problem.jobNumbers.cend()) {
        complain(QStringLiteral("There is no open job %1.").arg(job));
        return 2;
    }
    // What the shop follows; where nothing is published, what a dispatcher would do.
    const planning::Orders plan = bench->shop().plan() ? planning::publishedOrders(bench->shop(), problem)
                                                       : planning::dispatch(problem.problem, *problem.changes);
    const QString line = QStringLiteral("%1 %2 %3 %4 %5 %6 %7 %8 %9");
    say(QStringLiteral("Job %1: is a changeover worth it? Hours; money in %2; c = with clean-out; * = the least in all.")
            .arg(job, bench->catalogue().fleet.currency));
    say(line.arg(QStringLiteral("printer"), -8).arg(QStringLiteral("variant"), -10).arg(QStringLiteral("print"), 7)
            .arg(QStringLiteral("there"), 8).arg(QStringLiteral("back"), 8).arg(QStringLiteral("printing"), 10)
            .arg(QStringLiteral("changing"), 10).arg(QStringLiteral("others late"), 12).arg(QStringLiteral("total"), 10) +
        QStringLiteral("  break-even"));
    for (const planning::WorthRow& r : planning::worthOf(problem, *number, plan)) {
        if (!r.impossible.isEmpty()) {
            say(QStringLiteral("%1 %2 not possible: %3").arg(r.printer, -8).arg(r.variant, -10).arg(r.impossible));
            continue;
        }
        say(line.arg(r.printer, -8).arg(r.variant, -10).arg(hours(r.print), 7).arg(changing(r.there, r.cleanOutThere), 8)
                .arg(r.noWayBack ? QStringLiteral("no way") : changing(r.back, r.cleanOutBack), 8)
                .arg(money(r.printing), 10).arg(money(r.changing + r.material), 10).arg(money(r.othersLate), 12)
                .arg(money(r.total()), 10) +
            QStringLiteral("  %1%2").arg(breakEven(r), r.best ? QStringLiteral(" *") : r.displaces.isEmpty() ? QString() : QStringLiteral("; ") + r.displaces));
    }
    return 0;
}

} // namespace interlude::app
