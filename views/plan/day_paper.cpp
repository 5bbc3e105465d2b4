// One printer's day.
#include "views/plan/plan_paper.h"

#include <QPainter>

namespace interlude::plan_paper {

using namespace paper;
using planning::Minute;
using planning::TimedJob;

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(PlanPaper)
};

struct Line {
    Minute from = 0, to = 0;
    QString job, what, people;
};

QString stepsText(const Catalogue& catalogue, const planning::TimedWork& w) {
    QStringList out;
    for (const std::string& id : w.work->steps) {
        const StepTemplate* step = catalogue.step(QString::fromStdString(id));
        out << (step ? step->title : QString::fromStdString(id));
    }
    return out.join(QStringLiteral("; "));
}

QString whatText(const PlanOnPaper& plan, const planning::TimedWork& w) {
    const QString steps = stepsText(plan.shop.catalogue(), w);
    QString text;
    switch (w.work->kind) {
    case planning::Kind::Preparation: text = Said::tr("Prepare: %1").arg(steps); break;
    case planning::Kind::HandsOn: text = steps.isEmpty() ? Said::tr("Changeover, hands-on") : steps; break;
    case planning::Kind::Waiting: text = steps.isEmpty() ? Said::tr("Waiting") : Said::tr("Waiting: %1").arg(steps); break;
    case planning::Kind::PartRemoval: text = steps.isEmpty() ? Said::tr("Take the part out") : steps; break;
    }
    for (const int n : w.took)
        if (n >= 0) text += Said::tr(" · nozzle %1").arg(QString::fromStdString(plan.problem.problem.nozzles[static_cast<std::size_t>(n)].serial));
    return text;
}

QList<Line> linesOf(const PlanOnPaper& plan, int printer, Minute begin, Minute end) {
    QList<Line> out;
    const auto add = [&](const Line& l) {
        if (l.from < end && l.to > begin) out.append(l);
    };
    for (const TimedJob& j : plan.timetable.printers[static_cast<std::size_t>(printer)]) {
        const QString job = j.job >= 0 ? plan.problem.jobs[j.job].id : QStringLiteral("—");
        for (const planning::TimedWork& w : j.work)
            add({w.start, w.end, job, whatText(plan, w), w.work->people > 0 ? QString::number(w.work->people) : QString()});
        if (j.job < 0) continue;
        const Job& known = plan.problem.jobs[j.job];
        const QString variant = j.variant >= 0 ? known.variants[j.variant].name : QString();
        add({j.printStart, j.printEnd, job, Said::tr("PRINT %1 %2 %3").arg(known.id, known.title, variant).simplified(), {}});
    }
    for (const planning::Span& down : plan.problem.problem.printers[static_cast<std::size_t>(printer)].down)
        add({down.from, down.to, {}, Said::tr("DOWN"), {}});
    std::stable_sort(out.begin(), out.end(), [](const Line& a, const Line& b) { return a.from < b.from; });
    return out;
}

constexpr double timeWidth = 96, jobWidth = 54, peopleWidth = 46;

Block tableRow(const QStringList& cells, bool headRow) {
    const Face f = headRow ? Face::Bold : Face::Body;
    Block b;
    b.tableHead = headRow;
    b.inTable = !headRow;
    const double width = Sheet(Size::A4).width() - timeWidth - jobWidth - peopleWidth;
    b.height = std::min(tallest, textHeight(cells.value(2), f, width - 8) + 5);
    b.paint = [cells, headRow, f](QPainter& p, const QRectF& r) {
        if (headRow) p.fillRect(r, ink::fill());
        drawText(p, r.x() + 2, r.y() + 2, timeWidth - 4, cells.value(0), f);
        drawText(p, r.x() + timeWidth, r.y() + 2, jobWidth - 4, elided(cells.value(1), f, jobWidth - 4), f);
        drawText(p, r.x() + timeWidth + jobWidth, r.y() + 2, r.width() - timeWidth - jobWidth - peopleWidth - 8, cells.value(2), f);
        drawText(p, r.right() - peopleWidth, r.y() + 2, peopleWidth - 2, cells.value(3), f, Qt::AlignRight);
        p.setPen(QPen(ink::line(), 0.5));
        p.drawLine(r.bottomLeft(), r.bottomRight());
    };
    return b;
}

} // namespace

Sheet daySheet(const PlanOnPaper& plan, int printer, QDate day, Size size) {
    const Catalogue& catalogue = plan.shop.catalogue();
    const QTimeZone zone = catalogue.fleet.zone;
    const QString id = QString::fromStdString(plan.problem.problem.printers[static_cast<std::size_t>(printer)].id);
    const QString name = catalogue.printerName(id);
    const Instant begin = instantOf(QDateTime(day, QTime(0, 0), zone)), end = instantOf(QDateTime(day.addDays(1), QTime(0, 0), zone));
    Sheet sheet(size);
    sheet.setRunning(shopName(catalogue), Said::tr("%1 · %2").arg(name, plan.which),
                     Said::tr("Printed %1. Times are the shop's local time; the plan foresees, the guide decides.").arg(toZone(plan.printedAt, zone).toString(QStringLiteral("yyyy-MM-dd HH:mm"))));
    sheet.paragraph(Said::tr("%1 · %2").arg(name, day.toString(QStringLiteral("dddd yyyy-MM-dd"))), Face::Title);
    sheet.gap(6);
    const QList<Line> lines = linesOf(plan, printer, planning::minutesDown(begin, plan.problem.now), planning::minutesUp(end, plan.problem.now));
    if (lines.isEmpty()) {
        sheet.paragraph(Said::tr("Nothing is planned here on this day."));
        return sheet;
    }
    sheet.add(tableRow({Said::tr("from – to"), Said::tr("job"), Said::tr("what"), Said::tr("people")}, true));
    const auto clock = [&](Minute m) {
        const QDateTime t = toZone(plan.problem.at(m), zone);
        return t.date() == day ? t.toString(QStringLiteral("HH:mm")) : t.toString(QStringLiteral("ddd HH:mm"));
    };
    for (const Line& l : lines) sheet.add(tableRow({QStringLiteral("%1 – %2").arg(clock(l.from), l.to >= planning::never ? QStringLiteral("…") : clock(l.to)), l.job, l.what, l.people}, false));
    return sheet;
}

Outcome<int> writeDayPdf(const PlanOnPaper& plan, int printer, QDate day, const QString& file, Size size) {
    return writePdf(daySheet(plan, printer, day, size), Said::tr("Plan of the day"), file, size);
}

} // namespace interlude::plan_paper
