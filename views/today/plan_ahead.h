#pragma once
// What the published plan holds for the next hours, timed on the shop as it is now: each printer's next job, who is needed
// for it and when, and what came otherwise than planned. Reckoned anew when the shop changed or a minute has passed.

#include "model/planning/problem/shop_problem.h"
#include "model/planning/timetable/timetable.h"
#include "views/bench/bench.h"
#include "views/today/outlook.h"

namespace interlude {

class PlanAhead {
public:
    /// `bench` is borrowed and outlives this.
    explicit PlanAhead(const Bench& bench) : m_bench(bench) {}

    /// The first planned job of a printer that has not begun.
    struct Next {
        JobId job;
        QString title, variant;
        Instant begins;         ///< work on the printer, or the print where nothing is changed
        Minutes length{0};      ///< of the changeover, without waits for people
        int people = 0;         ///< the most that it needs at once
        Instant printStart;
        QString late;           ///< what came otherwise than planned; empty when nothing did
    };
    std::optional<Next> next(const PrinterId& printer) const;
    /// Planned work and prints of a printer that begin before `until`, in order of time.
    QList<Stretch> stretches(const PrinterId& printer, Instant until) const;
    /// Changeovers, preparations and parts to take out that begin before `until`; what runs already is not among them.
    QList<Need> needs(Instant until) const;
    /// What came otherwise than the plan foresaw.
    QList<Worry> worries() const;

private:
    struct Reckoned {
        planning::ShopProblem problem;
        planning::Timetable timetable;
        QList<Worry> worries;
        QHash<JobId, QString> late;
    };
    /// Null when nothing is published.
    const Reckoned* reckoned() const;
    QString toFetch(const planning::TimedJob& job) const;
    void addJob(QList<Need>& out, const PrinterId& printer, const planning::TimedJob& job, Instant until) const;

    const Bench& m_bench;
    mutable std::unique_ptr<Reckoned> m_reckoned;
    mutable qint64 m_sequence = -1;
    mutable Instant m_at;
};

/// Who is needed at all printers, now and as planned, those who are needed now first, then in order of time. `plan` may be
/// null.
QList<Need> allNeeds(const Bench& bench, const PlanAhead* plan, Instant until);

} // namespace interlude
