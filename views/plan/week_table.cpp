#include "views/plan/week_table.h"

#include "model/planning/plans/plan_report.h"
#include "views/plan/plan_words.h"

#include <QPainter>

#include <array>

namespace interlude::plan_paper {

using namespace paper;
using planning::Minute;
using planning::TimedJob;

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(PlanPaper)
};

constexpr double lineHeight = 14;
/// Job, what, changeover from, its minutes, print from and to, part out, due, late; what gets the rest of the width.
constexpr std::array widths{52.0, 0.0, 82.0, 52.0, 82.0, 82.0, 82.0, 82.0, 70.0};

QStringList heads() {
    return {Said::tr("job"), Said::tr("what"), Said::tr("changeover"), Said::tr("takes"), Said::tr("print from"), Said::tr("print to"),
            Said::tr("part out"), Said::tr("due"), Said::tr("late by")};
}

} // namespace

WeekTable::WeekTable(const PlanOnPaper& plan, QDate from, const QRectF& inside)
    : m_plan(plan), m_zone(plan.shop.catalogue().fleet.zone), m_begin(instantOf(QDateTime(from, QTime(0, 0), m_zone))),
      m_end(instantOf(QDateTime(from.addDays(7), QTime(0, 0), m_zone))), m_inside(inside) {
    layOut();
}

QString WeekTable::clock(Instant t) const {
    return toZone(t, m_zone).toString(QStringLiteral("ddd d MMM HH:mm"));
}

QString WeekTable::clock(Minute m) const {
    return m >= planning::never ? QStringLiteral("…") : clock(m_plan.problem.at(m));
}

bool WeekTable::touches(Minute from, Minute to) const {
    return from < planning::never && m_plan.problem.at(from) < m_end && (to >= planning::never || m_plan.problem.at(to) > m_begin);
}

WeekTable::Line WeekTable::lineOf(const TimedJob& j) const {
    const bool known = j.job >= 0;
    const Job job = known ? m_plan.problem.jobs[j.job] : Job();
    const QString variant = known && j.variant >= 0 ? job.variants[j.variant].name : QString();
    QString what = known ? QStringLiteral("%1 %2").arg(job.title, variant).simplified() : Said::tr("a part lies there");
    if (j.running && known) what += j.printEnd > j.printStart ? Said::tr(" · prints now") : Said::tr(" · its part lies there");
    Minute first = planning::never;
    for (const planning::TimedWork& w : j.work)
        if (w.work->kind == planning::Kind::HandsOn || w.work->kind == planning::Kind::Waiting) first = std::min(first, w.start);
    const bool changes = !j.running && first < planning::never;
    const bool prints = j.printEnd > j.printStart;
    const std::optional<Minute> late = planning::lateMinutes(m_plan.problem, j);
    return {false,
            {known ? job.id : QStringLiteral("—"), what, changes ? clock(first) : QString(),
             changes && j.changeoverMinutes > 0 ? plan_words::length(j.changeoverMinutes) : QString(), prints ? clock(j.printStart) : QString(),
             prints ? clock(j.printEnd) : QString(), clock(j.complete), job.due ? clock(*job.due) : QString(),
             !late ? QStringLiteral("▲ …") : *late > 0 ? QStringLiteral("▲ ") + plan_words::length(*late) : QString()}};
}

QList<WeekTable::Line> WeekTable::linesOf(std::size_t printer) const {
    QList<std::pair<Minute, Line>> found;
    for (const TimedJob& j : m_plan.timetable.printers[printer]) {
        Minute from = j.printStart;
        for (const planning::TimedWork& w : j.work) from = std::min(from, w.start);
        if (touches(from, std::max(j.complete, j.printEnd))) found.append({from, lineOf(j)});
    }
    for (const planning::Span& down : m_plan.problem.problem.printers[printer].down)
        if (touches(down.from, down.to))
            found.append({down.from, {false, {QString(), Said::tr("DOWN, %1 to %2").arg(clock(down.from), down.to >= planning::never ? Said::tr("for good") : clock(down.to))}}});
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    QList<Line> out;
    for (const auto& [at, line] : found) out.append(line);
    if (out.isEmpty()) out.append(Line{false, {QString(), Said::tr("nothing planned on these days")}});
    return out;
}

/// A printer's name stands above its first job, and again where they go on on the next page.
void WeekTable::layOut() {
    const auto room = std::max<qsizetype>(3, static_cast<qsizetype>(m_inside.height() / lineHeight) - 1); // without the heads
    m_pages.assign(1, {});
    for (std::size_t p = 0; p < m_plan.timetable.printers.size(); ++p) {
        const QString name = m_plan.shop.catalogue().printerName(QString::fromStdString(m_plan.problem.problem.printers[p].id));
        if (m_pages.back().size() + 2 > room) m_pages.emplace_back();
        m_pages.back().append({true, {name}});
        for (const Line& line : linesOf(p)) {
            if (m_pages.back().size() + 1 > room) {
                m_pages.emplace_back();
                m_pages.back().append({true, {Said::tr("%1, continued").arg(name)}});
            }
            m_pages.back().append(line);
        }
    }
}

void WeekTable::paint(QPainter& p, int page) const {
    double y = m_inside.top();
    paintLine(p, {false, heads()}, y, true);
    for (const Line& line : m_pages[static_cast<std::size_t>(page)]) paintLine(p, line, y += lineHeight, false);
}

void WeekTable::paintLine(QPainter& p, const Line& line, double y, bool isHead) const {
    const Face face = isHead || line.isPrinter ? Face::Bold : Face::Body;
    const QRectF whole(m_inside.left(), y, m_inside.width(), lineHeight);
    if (isHead) p.fillRect(whole, ink::fill());
    p.setPen(QPen(line.isPrinter ? ink::text() : ink::line(), 0.5));
    p.drawLine(whole.bottomLeft(), whole.bottomRight());
    double rest = m_inside.width();
    for (const double w : widths) rest -= w;
    double x = m_inside.left();
    for (qsizetype i = 0; i < line.cells.size(); ++i) {
        const double own = widths[static_cast<std::size_t>(i)];
        // What stands alone has the whole line.
        const double width = i + 1 == line.cells.size() && i < 2 ? m_inside.right() - x : own > 0 ? own : rest;
        drawText(p, x + 2, y + 1, width - 4, elided(line.cells[i], face, width - 4), face);
        x += width;
    }
}

} // namespace interlude::plan_paper
