#pragma once
// The week in figures: under each printer its jobs with changeover, print, end and due date, for what is too narrow to be read
// on the printed board. Laid out for the pages of `plan_paper` (private to it).

#include "views/plan/plan_paper.h"

#include <QRectF>

namespace interlude::plan_paper {

class WeekTable {
public:
    /// Of the seven days from `from`; each page gives it `inside`, in points.
    WeekTable(const PlanOnPaper& plan, QDate from, const QRectF& inside);
    int pages() const { return static_cast<int>(m_pages.size()); }
    void paint(QPainter& p, int page) const;

private:
    struct Line {
        bool isPrinter = false; ///< a printer's name, above its jobs
        QStringList cells;
    };
    QList<Line> linesOf(std::size_t printer) const;
    Line lineOf(const planning::TimedJob& job) const;
    QString clock(Instant t) const;
    QString clock(planning::Minute m) const;
    bool touches(planning::Minute from, planning::Minute to) const;
    void layOut();
    void paintLine(QPainter& p, const Line& line, double y, bool isHead) const;

    const PlanOnPaper& m_plan;
    QTimeZone m_zone;
    Instant m_begin, m_end;
    QRectF m_inside;
    std::vector<QList<Line>> m_pages;
};

} // namespace interlude::plan_paper
