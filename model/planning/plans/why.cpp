#include "model/planning/plans/why.h"

#include "model/clock/length.h"

#include <algorithm>

namespace interlude::planning {

namespace {

class Explanation {
public:
    Explanation(const ShopProblem& problem, const Timetable& timetable, const TimedJob& job)
        : m_problem(problem), m_timetable(timetable), m_job(job) {}

    Why explain() {
        explainChangeover();
        explainWaits();
        explainLateness();
        return m_why;
    }

private:
    QString clock(Minute m) const {
        const QTimeZone& zone = m_problem.changes->ground().catalogue->fleet.zone;
        return toZone(m_problem.at(m), zone).toString(QStringLiteral("ddd HH:mm"));
    }
    const PrinterNumbers& printer() const { return m_problem.problem.printers[static_cast<std::size_t>(m_job.printer)]; }

    void explainChangeover() {
        if (!m_job.change) return;
        for (const std::string& f : m_job.change->facts) m_why.changeover.append(QString::fromStdString(f));
        for (const std::string& r : m_job.change->reasons) m_why.changeover.append(QString::fromStdString(r));
        for (const TimedWork& w : m_job.work)
            for (const int n : w.took)
                if (n >= 0)
                    m_why.changeover.append(
                        QStringLiteral("takes nozzle %1")
                            .arg(QString::fromStdString(m_problem.problem.nozzles[static_cast<std::size_t>(n)].serial)));
    }

    int crewAt(Minute t) const {
        int crew = 0;
        for (const CrewFrom& c : m_problem.problem.crew)
            if (c.from <= t) crew = c.crew;
        return crew;
    }
    std::optional<Minute> enoughFrom(Minute t, int people) const {
        for (const CrewFrom& c : m_problem.problem.crew)
            if (c.from > t && c.crew >= people) return c.from;
        return {};
    }
    /// Printers at which people work at that minute.
    QStringList busyAt(Minute t) const {
        QStringList out;
        for (const auto& list : m_timetable.printers)
            for (const TimedJob& j : list)
                for (const TimedWork& w : j.work)
                    if (w.work->people > 0 && w.start <= t && t < w.end && j.printer != m_job.printer) {
                        const QString name = m_problem.changes->ground().catalogue->printerName(
                            QString::fromStdString(m_problem.problem.printers[static_cast<std::size_t>(j.printer)].id));
                        if (!out.contains(name)) out.append(name);
                    }
        return out;
    }
    bool isDownAt(Minute t) const {
        const auto& down = printer().down;
        return std::any_of(down.begin(), down.end(), [t](const Span& d) { return d.from <= t && t < d.to; });
    }

    QString causeOf(Minute ready, const TimedWork& w) const {
        if (isDownAt(ready)) return QStringLiteral("the printer is down");
        if (w.work->people > 0 && crewAt(ready) < w.work->people) {
            const auto from = enoughFrom(ready, w.work->people);
            const QString need = w.work->people == 1 ? QStringLiteral("nobody is") : QStringLiteral("fewer than %1 people are").arg(w.work->people);
            return from ? QStringLiteral("%1 on shift until %2").arg(need, clock(*from))
                        : QStringLiteral("%1 on shift").arg(need);
        }
        if (const QStringList busy = busyAt(ready); w.work->people > 0 && !busy.isEmpty())
            return QStringLiteral("people are busy at %1").arg(busy.join(QStringLiteral(", ")));
        if (w.took[0] >= 0 || w.took[1] >= 0) return QStringLiteral("its nozzle is not free before");
        if (w.work->people > 0) return QStringLiteral("there is no stretch long enough before");
        return QStringLiteral("it has to wait");
    }

    void explainWaits() {
        Minute ready = previousEnd();
        for (const TimedWork& w : m_job.work) {
            if (w.work->kind == Kind::Preparation) continue;
            if (w.work->kind == Kind::PartRemoval && w.start >= m_job.printEnd) ready = std::max(ready, m_job.printEnd);
            if (w.start > ready) {
                m_why.waits.append(QStringLiteral("%1 before %2: %3")
                                       .arg(lengthText(Minutes(w.start - ready)),
                                            w.work->kind == Kind::PartRemoval ? QStringLiteral("its part is taken out")
                                                                              : QStringLiteral("work at the changeover"),
                                            causeOf(ready, w)));
                m_waited += w.start - ready;
            }
            ready = std::max(ready, w.end);
            if (w.work->kind != Kind::PartRemoval && w.end >= m_job.changeoverDone) ready = m_job.changeoverDone;
        }
        if (m_job.job < 0 || m_job.running) return;
        const Minute done = std::max(m_job.changeoverDone, previousEnd());
        if (m_job.printStart > done) {
            const auto& release = m_problem.problem.jobs[static_cast<std::size_t>(m_job.job)].release;
            const bool released = release && *release > done;
            m_why.waits.append(QStringLiteral("%1 before printing: %2")
                                   .arg(lengthText(Minutes(m_job.printStart - done)),
                                        released ? QStringLiteral("released only %1").arg(clock(*release))
                                                 : QStringLiteral("the printer is down")));
        }
    }

    /// When the printer came free for this job: the part before it is out, or now.
    Minute previousEnd() const {
        Minute end = 0;
        for (const TimedJob& j : m_timetable.printers[static_cast<std::size_t>(m_job.printer)]) {
            if (j.printStart >= m_job.printStart) break;
            end = std::max(end, std::max(j.complete, j.printEnd));
        }
        return std::max<Minute>(0, end);
    }

    void explainLateness() {
        if (m_job.job < 0 || m_job.complete >= never) return;
        const JobNumbers& job = m_problem.problem.jobs[static_cast<std::size_t>(m_job.job)];
        if (!job.due || m_job.complete <= *job.due) return;
        m_why.late.append(QStringLiteral("late by %1").arg(lengthText(Minutes(m_job.complete - *job.due))));
        m_why.late.append(QStringLiteral("the printer comes free %1").arg(clock(previousEnd())));
        m_why.late.append(QStringLiteral("changeover %1, waits %2, print %3")
                              .arg(lengthText(Minutes(m_job.changeoverMinutes)), lengthText(Minutes(m_waited)), lengthText(Minutes(m_job.printEnd - m_job.printStart))));
        if (previousEnd() + (m_job.printEnd - m_job.printStart) > *job.due)
            m_why.late.append(QStringLiteral("even without a changeover it would be late on this printer at this place"));
    }

    const ShopProblem& m_problem;
    const Timetable& m_timetable;
    const TimedJob& m_job;
    Minute m_waited = 0;
    Why m_why;
};

} // namespace

Why whyOf(const ShopProblem& problem, const Timetable& timetable, const TimedJob& job) {
    return Explanation(problem, timetable, job).explain();
}

} // namespace interlude::planning
