#include "model/planning/plans/worth_it.h"

#include <algorithm>
#include <cmath>

namespace interlude::planning {

namespace {

Orders without(Orders plan, int job) {
    for (auto& list : plan.printers) std::erase_if(list, [job](const Place& p) { return p.job == job; });
    std::erase(plan.leftOut, job);
    return plan;
}

class Comparison {
public:
    Comparison(ShopProblem& problem, int job, const Orders& plan)
        : m_problem(problem), m_job(job), m_plan(without(plan, job)), m_costBefore(problem.problem.jobs.size(), -1) {
        const Timetable before = timetable(problem.problem, *problem.changes, m_plan);
        m_lateBefore = lateCostOfOthers(before);
        for (const auto& list : before.printers)
            for (const TimedJob& j : list)
                if (j.job >= 0 && j.complete < never)
                    m_costBefore[static_cast<std::size_t>(j.job)] = lateCost(problem.problem.jobs[static_cast<std::size_t>(j.job)], j.complete);
    }

    WorthRow row(int printer, int variant) {
        const VariantNumbers& v = numbers().variants[static_cast<std::size_t>(variant)];
        const auto p = static_cast<std::size_t>(printer);
        const PrinterNumbers& there = m_problem.problem.printers[p];
        WorthRow r;
        r.printer = QString::fromStdString(there.id);
        r.variant = QString::fromStdString(v.name);
        r.setup = QString::fromStdString(v.setup);
        if (v.print[p] < 0) {
            r.impossible = QString::fromStdString(v.whyNot[p]);
            return r;
        }
        const int state = there.session ? there.sessionState : there.state;
        const Change& change = m_problem.changes->from(printer, state, m_job, variant, {});
        if (!change.possible) {
            r.impossible = QString::fromStdString(change.reason);
            return r;
        }
        r.print = v.print[p];
        r.there = change.minutes;
        r.cleanOutThere = change.cleanOut;
        r.material = change.material;
        addWayBack(r, p, change.next);
        r.printing = perHour(there.hourlyRate, r.print);
        r.changing = perHour(there.hourlyRate, r.there + r.back);
        Orders with = m_plan;
        with.printers[p].insert(with.printers[p].begin(), {m_job, variant});
        compare(r, timetable(m_problem.problem, *m_problem.changes, with));
        return r;
    }

private:
    const JobNumbers& numbers() const { return m_problem.problem.jobs[static_cast<std::size_t>(m_job)]; }

    /// To what the printer wears now.
    void addWayBack(WorthRow& r, std::size_t printer, int state) {
        const ChangesGround& ground = m_problem.changes->ground();
        const Change& back = m_problem.changes->toSetup(ground.kindOf[printer], state, ground.presentSetup[printer], {});
        r.noWayBack = !back.possible;
        if (!back.possible) return;
        r.back = back.minutes;
        r.cleanOutBack = back.cleanOut;
        r.material += back.material;
    }

    /// The late cost of a job that has a place without this one only is no saving.
    void compare(WorthRow& r, const Timetable& with) const {
        r.othersLate = lateCostOfOthers(with) - m_lateBefore;
        for (const NotPlaced& n : with.notPlaced) {
            if (n.job != m_job && m_costBefore[static_cast<std::size_t>(n.job)] < 0) continue;
            if (n.job != m_job) r.othersLate += m_costBefore[static_cast<std::size_t>(n.job)];
            if (r.displaces.isEmpty())
                r.displaces = QStringLiteral("job %1 would have no place: %2").arg(m_problem.jobs[n.job].id, QString::fromStdString(n.reason));
        }
    }
    Cents lateCostOfOthers(const Timetable& t) const {
        Cents sum = 0;
        for (const auto& list : t.printers)
            for (const TimedJob& j : list)
                // A part that never comes out is late with and without this job.
                if (j.job >= 0 && j.job != m_job && j.complete < never)
                    sum += lateCost(m_problem.problem.jobs[static_cast<std::size_t>(j.job)], j.complete);
        return sum;
    }

    ShopProblem& m_problem;
    int m_job;
    Orders m_plan;
    std::vector<Cents> m_costBefore; ///< late cost by job, without this one; -1: no place then either
    Cents m_lateBefore = 0;
};

/// Against the row of the same printer that changes least: from which volume on is the dearer changeover paid back by
/// quicker printing?
void breakEvens(const Job& job, QList<WorthRow>& rows, qsizetype first, qsizetype count) {
    const auto fixed = [](const WorthRow& r) { return r.changing + r.material; };
    qsizetype least = -1;
    for (qsizetype i = first; i < first + count; ++i)
        if (rows[i].impossible.isEmpty() && (least < 0 || fixed(rows[i]) < fixed(rows[least]))) least = i;
    if (least < 0) return;
    for (qsizetype i = first; i < first + count; ++i) {
        WorthRow& r = rows[i];
        if (!r.impossible.isEmpty() || i == least) continue;
        const double ownCm3 = job.variants[i - first].partVolume.cm3(), leastCm3 = job.variants[least - first].partVolume.cm3();
        if (ownCm3 <= 0 || leastCm3 <= 0) continue;
        const double saved = static_cast<double>(rows[least].printing) / leastCm3 - static_cast<double>(r.printing) / ownCm3;
        const double more = static_cast<double>(fixed(r) - fixed(rows[least]));
        if (saved > 0) r.breakEven = Volume::fromCm3(std::ceil(more / saved * 10.0) / 10.0);
        else r.neverPays = true;
    }
}

} // namespace

QList<WorthRow> worthOf(ShopProblem& problem, int job, const Orders& plan) {
    QList<WorthRow> rows;
    Comparison comparison(problem, job, plan);
    const auto variants = static_cast<int>(problem.problem.jobs[static_cast<std::size_t>(job)].variants.size());
    for (int p = 0; p < static_cast<int>(problem.problem.printers.size()); ++p) {
        const qsizetype first = rows.size();
        for (int v = 0; v < variants; ++v) rows.append(comparison.row(p, v));
        breakEvens(problem.jobs[job], rows, first, variants);
    }
    qsizetype best = -1;
    for (qsizetype i = 0; i < rows.size(); ++i)
        if (rows[i].impossible.isEmpty() && rows[i].displaces.isEmpty() && (best < 0 || rows[i].total() < rows[best].total())) best = i;
    if (best >= 0) rows[best].best = true;
    return rows;
}

} // namespace interlude::planning
