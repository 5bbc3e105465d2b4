// The week of the board.
#include "views/plan/plan_paper.h"

#include "views/look/look.h"
#include "views/plan/week_table.h"

#include <QPageLayout>
#include <QPainter>

#include <cmath>

namespace interlude::plan_paper {

using namespace paper;
using planning::Minute;
using planning::TimedJob;

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(PlanPaper)
};

constexpr double margin = 28, head = 30, axis = 26, foot = 14, nameWidth = 70, leastRow = 30, mostRow = 64;
constexpr int days = 7;

class Week {
public:
    Week(const PlanOnPaper& plan, QDate from, const QSizeF& page)
        : m_plan(plan), m_zone(plan.shop.catalogue().fleet.zone), m_from(from), m_page(page),
          m_left(margin + nameWidth), m_width(page.width() - 2 * margin - nameWidth),
          m_begin(instantOf(QDateTime(from, QTime(0, 0), m_zone))),
          m_end(instantOf(QDateTime(from.addDays(days), QTime(0, 0), m_zone))),
          m_table(plan, from, QRectF(margin, margin + head, page.width() - 2 * margin, page.height() - 2 * margin - head - foot)) {
        const double room = page.height() - 2 * margin - head - axis - foot;
        const int printers = std::max(1, static_cast<int>(plan.problem.problem.printers.size()));
        m_rows = std::clamp(static_cast<int>(room / leastRow), 1, printers);
        m_rowHeight = std::min(mostRow, room / m_rows);
    }

    /// The board, then the table.
    int pages() const { return boards() + m_table.pages(); }

    void paint(QPainter& p, int page) const {
        paintRunning(p, page);
        if (page >= boards()) return m_table.paint(p, page - boards());
        const int first = page * m_rows;
        const int last = std::min(first + m_rows, static_cast<int>(m_plan.problem.problem.printers.size()));
        const double top = margin + head, bottom = top + axis + (last - first) * m_rowHeight;
        paintNights(p, top + axis, bottom);
        paintAxis(p, top, bottom);
        for (int i = first; i < last; ++i) paintRow(p, i, top + axis + (i - first) * m_rowHeight);
    }

private:
    int boards() const {
        const int printers = static_cast<int>(m_plan.problem.problem.printers.size());
        return std::max(1, (printers + m_rows - 1) / m_rows);
    }
    double x(Instant t) const {
        const double share = static_cast<double>((t - m_begin).count()) / static_cast<double>((m_end - m_begin).count());
        return m_left + std::clamp(share, 0.0, 1.0) * m_width;
    }
    double x(Minute m) const { return x(m >= planning::never ? m_end : m_plan.problem.at(m)); }
    /// Not on these days at all.
    bool isOff(Minute from, Minute to) const {
        return from >= planning::never || m_plan.problem.at(from) >= m_end ||
               (to < planning::never && m_plan.problem.at(to) <= m_begin);
    }

    void paintRunning(QPainter& p, int page) const {
        const double width = m_page.width() - 2 * margin;
        drawText(p, margin, margin, width * 0.7, Said::tr("Plan · %1 to %2").arg(m_from.toString(QStringLiteral("ddd yyyy-MM-dd")), m_from.addDays(days - 1).toString(QStringLiteral("ddd yyyy-MM-dd"))), Face::Heading);
        drawText(p, margin + width * 0.4, margin, width * 0.6, m_plan.which, Face::Bold, Qt::AlignRight);
        const double y = m_page.height() - margin - 9;
        drawText(p, margin, y, width - 70,
                 (page < boards() ? Said::tr("%1 · printed %2 · black: hands-on, thin bar: waiting, ▼ due, ▲ late; times on the pages that follow")
                                  : Said::tr("%1 · printed %2 · times are the shop's local time; the plan foresees, the guide decides"))
                     .arg(shopName(m_plan.shop.catalogue()), toZone(m_plan.printedAt, m_zone).toString(QStringLiteral("yyyy-MM-dd HH:mm"))),
                 Face::Small, Qt::AlignLeft, ink::soft());
        drawText(p, margin + width - 70, y, 70, Said::tr("page %1 of %2").arg(page + 1).arg(pages()), Face::Small, Qt::AlignRight, ink::soft());
    }

    void paintNights(QPainter& p, double top, double bottom) const {
        const auto& crew = m_plan.problem.problem.crew;
        for (std::size_t i = 0; i < crew.size(); ++i) {
            if (crew[i].crew > 0) continue;
            const double from = x(crew[i].from), to = i + 1 < crew.size() ? x(crew[i + 1].from) : m_left + m_width;
            if (to > from) p.fillRect(QRectF(from, top, to - from, bottom - top), ink::fill());
        }
    }

    void paintAxis(QPainter& p, double top, double bottom) const {
        for (int d = 0; d <= days; ++d) {
            const Instant midnight = instantOf(QDateTime(m_from.addDays(d), QTime(0, 0), m_zone));
            p.setPen(QPen(ink::text(), 0.6));
            p.drawLine(QPointF(x(midnight), top), QPointF(x(midnight), bottom));
            if (d == days) break;
            drawText(p, x(midnight) + 3, top, m_width / days - 6, m_from.addDays(d).toString(QStringLiteral("ddd d MMM")), Face::Bold);
            for (const int hour : {6, 12, 18}) {
                const Instant t = instantOf(QDateTime(m_from.addDays(d), QTime(hour, 0), m_zone));
                p.setPen(QPen(ink::line(), 0.4));
                p.drawLine(QPointF(x(t), top + axis - 4), QPointF(x(t), bottom));
                drawText(p, x(t) - 10, top + axis - 13, 20, QString::number(hour), Face::Small, Qt::AlignHCenter, ink::soft());
            }
        }
        p.setPen(QPen(ink::text(), 0.9));
        const double now = x(m_plan.problem.now);
        if (now > m_left && now < m_left + m_width) p.drawLine(QPointF(now, top + axis), QPointF(now, bottom));
    }

    void paintRow(QPainter& p, int printer, double y) const {
        const planning::PrinterNumbers& numbers = m_plan.problem.problem.printers[static_cast<std::size_t>(printer)];
        const QString name = m_plan.shop.catalogue().printerName(QString::fromStdString(numbers.id));
        drawText(p, margin, y + m_rowHeight / 2 - 6, nameWidth - 6, elided(name, Face::Bold, nameWidth - 6), Face::Bold);
        p.setPen(QPen(ink::line(), 0.4));
        p.drawLine(QPointF(margin, y + m_rowHeight), QPointF(m_left + m_width, y + m_rowHeight));
        for (const planning::Span& down : numbers.down)
            if (!isOff(down.from, down.to)) {
                const QRectF r(x(down.from), y + 5, x(down.to) - x(down.from), m_rowHeight - 10);
                p.fillRect(r, ink::line());
                drawText(p, r.x() + 2, r.y() + 2, std::max(20.0, r.width() - 4), Said::tr("down"), Face::Small);
            }
        for (const TimedJob& j : m_plan.timetable.printers[static_cast<std::size_t>(printer)]) paintJob(p, j, y);
    }

    void paintJob(QPainter& p, const TimedJob& j, double y) const {
        const double middle = y + m_rowHeight / 2;
        for (const planning::TimedWork& w : j.work) {
            if (isOff(w.start, w.end) || w.work->kind == planning::Kind::Preparation) continue;
            const double height = w.work->kind == planning::Kind::Waiting ? 3 : m_rowHeight * 0.5;
            p.fillRect(QRectF(x(w.start), middle - height / 2, std::max(0.5, x(w.end) - x(w.start)), height),
                       w.work->kind == planning::Kind::Waiting ? ink::soft() : ink::text());
        }
        if (isOff(j.printStart, j.printEnd)) return;
        const QRectF bar(x(j.printStart), y + 5, std::max(1.0, x(j.printEnd) - x(j.printStart)), m_rowHeight - 10);
        const bool known = j.job >= 0 && j.variant >= 0;
        const int family = known ? m_plan.problem.problem.jobs[static_cast<std::size_t>(j.job)].variants[static_cast<std::size_t>(j.variant)].family : -1;
        const QString name = family >= 0 ? m_plan.problem.chamberFamilies.value(family) : QString();
        p.fillRect(bar, family < 0 ? QBrush(ink::fill()) : QBrush(look::mixed(look::familyTint(look::familyIndex(m_plan.shop.catalogue(), name), look::Theme::Light), Qt::white, 0.8)));
        p.setPen(QPen(ink::text(), 0.6));
        p.drawRect(bar);
        if (!known) return;
        const QString label = QStringLiteral("%1 %2").arg(m_plan.problem.jobs[j.job].id, name.isEmpty() ? QString() : look::familyInitials(name));
        if (bar.width() > 10) drawText(p, bar.x() + 2, bar.y() + 1.5, bar.width() - 3, elided(label, Face::Small, bar.width() - 3), Face::Small);
        paintDue(p, j, bar);
    }

    void paintDue(QPainter& p, const TimedJob& j, const QRectF& bar) const {
        const auto& due = m_plan.problem.problem.jobs[static_cast<std::size_t>(j.job)].due;
        if (!due) return;
        if (j.complete > *due) {
            const QString late = Said::tr("▲ late %1 h").arg(std::ceil(static_cast<double>(j.complete - *due) / 60.0), 0, 'f', 0);
            drawText(p, bar.x() + 1, bar.bottom() - 10, bar.width() + 8, bar.width() < 46 ? late.left(1) : late, Face::Small);
        } else if (!isOff(*due, *due + 1)) {
            const double at = x(*due);
            p.setPen(Qt::NoPen);
            p.setBrush(ink::text());
            p.drawPolygon(QPolygonF{QPointF(at - 2.5, bar.top() - 4), QPointF(at + 2.5, bar.top() - 4), QPointF(at, bar.top())});
            p.setBrush(Qt::NoBrush);
        }
    }

    const PlanOnPaper& m_plan;
    QTimeZone m_zone;
    QDate m_from;
    QSizeF m_page;
    double m_left, m_width;
    Instant m_begin, m_end;
    WeekTable m_table;
    int m_rows = 1;
    double m_rowHeight = leastRow;
};

} // namespace

QPageLayout weekLayout(Wide size) {
    const auto id = size == Wide::A4 ? QPageSize::A4 : size == Wide::A3 ? QPageSize::A3 : size == Wide::Letter ? QPageSize::Letter : QPageSize::Tabloid;
    return QPageLayout(QPageSize(id), QPageLayout::Landscape, QMarginsF(0, 0, 0, 0), QPageLayout::Point);
}

QString shopName(const Catalogue& catalogue) {
    const QString& name = catalogue.fleet.name;
    const bool say = catalogue.fleet.exampleClock && !name.contains(Said::tr("example"), Qt::CaseInsensitive);
    return say ? Said::tr("%1 · example").arg(name) : name;
}

int paintWeek(const PlanOnPaper& plan, QDate from, QPagedPaintDevice& device) {
    QPainter painter;
    if (!painter.begin(&device)) return 0;
    const Week week(plan, from, device.pageLayout().fullRect(QPageLayout::Point).size());
    const double scale = static_cast<double>(device.logicalDpiX()) / 72.0;
    for (int i = 0; i < week.pages(); ++i) {
        if (i > 0 && !device.newPage()) return 0;
        painter.save();
        painter.scale(scale, scale);
        week.paint(painter, i);
        painter.restore();
    }
    return week.pages();
}

Outcome<int> writeWeekPdf(const PlanOnPaper& plan, QDate from, Wide size, const QString& file) {
    return writePdf(weekLayout(size), Said::tr("Plan of the week from %1").arg(from.toString(Qt::ISODate)), file,
                    [&](QPagedPaintDevice& pdf) { return paintWeek(plan, from, pdf); });
}

} // namespace interlude::plan_paper
