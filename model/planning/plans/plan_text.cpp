// A plan for people and for spreadsheets.

#include "model/catalogue/csv.h"
#include "model/planning/plans/plan_report.h"

namespace interlude::planning {

namespace {

QString local(const ShopProblem& problem, Minute m, const Catalogue& catalogue) {
    return toZone(problem.at(m), catalogue.fleet.zone).toString(QStringLiteral("ddd dd MMM HH:mm"));
}

QString money(Cents c, const Catalogue& catalogue) {
    return QStringLiteral("%1 %2").arg(static_cast<double>(c) / 100.0, 0, 'f', 2).arg(catalogue.fleet.currency);
}

QString hours(Minute m) {
    return QStringLiteral("%1:%2").arg(m / 60).arg(m % 60, 2, 10, QLatin1Char('0'));
}

QString figures(const QString& name, const Totals& t, const Catalogue& c) {
    return QStringLiteral("%1 %2 %3 %4 %5 %6 %7")
        .arg(name, -20)
        .arg(money(t.cost, c), 14)
        .arg(hours(t.turnaround), 10)
        .arg(hours(t.changeover), 10)
        .arg(t.cleanOuts, 10)
        .arg(t.lateJobs, 9)
        .arg(hours(t.makespan), 9);
}

QString valueText(Goal g, std::int64_t v, const Catalogue& c) {
    switch (g) {
    case Goal::Cost: return money(v, c);
    case Goal::Tardiness: return QStringLiteral("%1 (%2 per hour × late minutes)").arg(inUnit(g, v)).arg(c.fleet.currency);
    case Goal::Changeover:
    case Goal::Makespan: return QStringLiteral("%1 min").arg(v);
    }
    return {};
}

} // namespace

QString toText(const ShopProblem& problem, const PlanReport& r, const Catalogue& c) {
    QStringList lines;
    for (std::size_t p = 0; p < r.timetable.printers.size(); ++p) {
        lines << c.fleet.printers[static_cast<qsizetype>(p)].name;
        for (const TimedJob& j : r.timetable.printers[p]) {
            const QString id = j.job < 0 ? QStringLiteral("a part") : problem.jobs[j.job].id;
            const QString setup = j.job < 0 || j.variant < 0 ? QString() : setupText(problem.jobs[j.job].variants[j.variant].setup);
            QString line = QStringLiteral("  %1 → %2  %3  %4")
                               .arg(local(problem, j.printStart, c), local(problem, j.printEnd, c))
                               .arg(id, -8)
                               .arg(setup);
            if (j.running) line += j.printEnd > j.printStart ? QStringLiteral("  running") : QStringLiteral("  part lies there");
            if (j.changeoverMinutes > 0) line += QStringLiteral("  changeover %1 min").arg(j.changeoverMinutes);
            if (j.change && j.change->cleanOut) line += QStringLiteral(", with clean-out");
            const std::optional<Minute> late = lateMinutes(problem, j);
            if (!late) line += QStringLiteral("  its part does not come out");
            else if (*late > 0) line += QStringLiteral("  LATE by %1 h").arg(hours(*late));
            lines << line;
        }
    }
    for (const NotPlaced& n : r.timetable.notPlaced)
        lines << QStringLiteral("not placed: %1: %2").arg(problem.jobs[n.job].id, QString::fromStdString(n.reason));
    for (const Reservation& s : r.reservations)
        if (!s.reason.isEmpty()) lines << QStringLiteral("feedstock: %1: %2").arg(s.job, s.reason);
    lines << QString()
          << QStringLiteral("%1 %2 %3 %4 %5 %6 %7").arg(QString(), -20).arg(QStringLiteral("cost"), 14).arg(QStringLiteral("turnaround"), 10).arg(QStringLiteral("changeover"), 10).arg(QStringLiteral("clean-outs"), 10).arg(QStringLiteral("late jobs"), 9).arg(QStringLiteral("makespan"), 9)
          << figures(QStringLiteral("this plan"), r.timetable.totals, c)
          << figures(QStringLiteral("first in, first out"), r.firstInFirstOut, c)
          << figures(QStringLiteral("same setup first"), r.sameSetupFirst, c);
    const std::int64_t value = r.timetable.value(r.goal);
    QString bound = QStringLiteral("no lower bound is known for this shop");
    if (r.bound) bound = QStringLiteral("lower bound %1").arg(valueText(r.goal, *r.bound, c));
    if (const auto gap = gapOf(value, r.bound)) bound += QStringLiteral(", gap %1 %").arg(*gap * 100.0, 0, 'f', 1);
    lines << QStringLiteral("goal %1: %2; %3; %4 iterations, seed %5")
                 .arg(word(r.goal), valueText(r.goal, value, c), bound)
                 .arg(r.iterations)
                 .arg(r.seed);
    return lines.join(QLatin1Char('\n'));
}

QByteArray toCsv(const ShopProblem& problem, const PlanReport& r, const Catalogue& c) {
    QByteArray out = csvLine({QStringLiteral("printer"), QStringLiteral("job"), QStringLiteral("variant"),
                              QStringLiteral("setup"), QStringLiteral("changeover-minutes"), QStringLiteral("print-start"),
                              QStringLiteral("print-end"), QStringLiteral("complete"), QStringLiteral("due"),
                              QStringLiteral("late-minutes")});
    const auto clock = [&](Instant t) { return toZone(t, c.fleet.zone).toString(QStringLiteral("yyyy-MM-ddTHH:mm")); };
    const auto time = [&](Minute m) { return clock(problem.at(m)); };
    for (std::size_t p = 0; p < r.timetable.printers.size(); ++p)
        for (const TimedJob& j : r.timetable.printers[p]) {
            if (j.job < 0) continue;
            const Job& job = problem.jobs[j.job];
            const bool known = j.variant >= 0;
            const std::optional<Minute> late = lateMinutes(problem, j);
            out += csvLine({QString::fromStdString(problem.problem.printers[p].id), job.id,
                            known ? job.variants[j.variant].name : QString(),
                            known ? setupText(job.variants[j.variant].setup) : QString(),
                            QString::number(j.changeoverMinutes), time(j.printStart), time(j.printEnd),
                            j.complete < never ? time(j.complete) : QString(), job.due ? clock(*job.due) : QString(),
                            late ? QString::number(*late) : QString()});
        }
    return out;
}

} // namespace interlude::planning
