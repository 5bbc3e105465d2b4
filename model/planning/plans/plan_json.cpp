// The JSON of a plan (design section 10).

#include "model/planning/plans/plan_report.h"

#include <QJsonArray>

namespace interlude::planning {

namespace {

QJsonValue orNull(const std::optional<double>& v) {
    return v ? QJsonValue(*v) : QJsonValue();
}

QString text(const std::string& s) {
    return QString::fromStdString(s);
}

QJsonArray texts(const std::vector<std::string>& all) {
    QJsonArray out;
    for (const std::string& s : all) out.append(text(s));
    return out;
}

QJsonObject totalsJson(const Totals& t) {
    return {{QStringLiteral("turnaround_minutes"), static_cast<qint64>(t.turnaround)},
            {QStringLiteral("changeover_minutes"), static_cast<qint64>(t.changeover)},
            {QStringLiteral("hands_on_minutes"), static_cast<qint64>(t.handsOn)},
            {QStringLiteral("weighted_tardiness"), static_cast<double>(t.weightedTardiness) / 100.0},
            {QStringLiteral("late_jobs"), t.lateJobs},
            {QStringLiteral("makespan_minutes"), static_cast<qint64>(t.makespan)},
            {QStringLiteral("clean_outs"), t.cleanOuts},
            {QStringLiteral("cost"), static_cast<double>(t.cost) / 100.0},
            {QStringLiteral("not_placed"), t.notPlaced}};
}

QString kindWord(Kind k) {
    switch (k) {
    case Kind::Preparation: return QStringLiteral("preparation");
    case Kind::HandsOn: return QStringLiteral("hands-on");
    case Kind::Waiting: return QStringLiteral("waiting");
    case Kind::PartRemoval: return QStringLiteral("part-removal");
    }
    return {};
}

class Writer {
public:
    Writer(const ShopProblem& problem, const PlanReport& report) : m_problem(problem), m_report(report) {}

    QJsonObject write() const {
        const std::int64_t value = m_report.timetable.value(m_report.goal);
        QJsonObject o{{QStringLiteral("goal"), word(m_report.goal)},
                      {QStringLiteral("value"), inUnit(m_report.goal, value)},
                      {QStringLiteral("lower_bound"),
                       m_report.bound ? QJsonValue(inUnit(m_report.goal, *m_report.bound)) : QJsonValue()},
                      {QStringLiteral("gap"), orNull(gapOf(value, m_report.bound))},
                      {QStringLiteral("seconds"), orNull(m_report.seconds)},
                      {QStringLiteral("iterations"), static_cast<qint64>(m_report.iterations)},
                      {QStringLiteral("seed"), static_cast<qint64>(m_report.seed)},
                      {QStringLiteral("now"), iso(m_problem.now)},
                      {QStringLiteral("totals"), totalsJson(m_report.timetable.totals)},
                      {QStringLiteral("yardsticks"),
                       QJsonObject{{QStringLiteral("first_in_first_out"), totalsJson(m_report.firstInFirstOut)},
                                   {QStringLiteral("same_setup_first"), totalsJson(m_report.sameSetupFirst)}}}};
        QJsonArray printers;
        for (std::size_t p = 0; p < m_report.timetable.printers.size(); ++p) {
            QJsonArray jobs;
            for (const TimedJob& j : m_report.timetable.printers[p]) jobs.append(job(j));
            printers.append(QJsonObject{{QStringLiteral("id"), text(m_problem.problem.printers[p].id)},
                                        {QStringLiteral("jobs"), jobs}});
        }
        o.insert(QStringLiteral("printers"), printers);
        QJsonArray notPlaced;
        for (const NotPlaced& n : m_report.timetable.notPlaced)
            notPlaced.append(QJsonObject{
                {QStringLiteral("id"), text(m_problem.problem.jobs[static_cast<std::size_t>(n.job)].id)},
                {QStringLiteral("reason"), text(n.reason)}});
        o.insert(QStringLiteral("not_placed"), notPlaced);
        return o;
    }

private:
    void time(QJsonObject& o, const QString& key, std::optional<Minute> m) const {
        o.insert(key, m ? QJsonValue(static_cast<qint64>(*m)) : QJsonValue());
        o.insert(key + QStringLiteral("_at"), m ? QJsonValue(iso(m_problem.at(*m))) : QJsonValue());
    }

    QJsonArray serials(const std::array<int, 2>& nozzles) const {
        QJsonArray out;
        for (const int n : nozzles)
            if (n >= 0) out.append(text(m_problem.problem.nozzles[static_cast<std::size_t>(n)].serial));
        return out;
    }

    QJsonObject segment(const TimedWork& w) const {
        QJsonArray tools;
        for (const int t : w.work->tools)
            if (static_cast<std::size_t>(t) < m_problem.problem.tools.size())
                tools.append(text(m_problem.problem.tools[static_cast<std::size_t>(t)]));
        QJsonObject o{{QStringLiteral("kind"), kindWord(w.work->kind)},
                      {QStringLiteral("steps"), texts(w.work->steps)},
                      {QStringLiteral("people"), w.work->people},
                      {QStringLiteral("tools"), tools}};
        time(o, QStringLiteral("start"), w.start);
        time(o, QStringLiteral("end"), w.end);
        o.insert(QStringLiteral("nozzle_taken"), serials(w.took));
        o.insert(QStringLiteral("nozzle_freed"), serials(w.freed));
        return o;
    }

    QString stateWord(const TimedJob& j) const {
        if (j.session) return QStringLiteral("changeover");
        if (!j.running) return QStringLiteral("planned");
        return j.printEnd > j.printStart ? QStringLiteral("running") : QStringLiteral("part-lying");
    }

    QJsonObject job(const TimedJob& j) const {
        const bool known = j.job >= 0;
        const JobNumbers* numbers = known ? &m_problem.problem.jobs[static_cast<std::size_t>(j.job)] : nullptr;
        const VariantNumbers* v =
            known && j.variant >= 0 ? &numbers->variants[static_cast<std::size_t>(j.variant)] : nullptr;
        QJsonArray segments, flags, reasons;
        for (const TimedWork& w : j.work) segments.append(segment(w));
        const std::optional<Minute> late = lateMinutes(m_problem, j);
        if (late > 0) flags.append(QStringLiteral("late"));
        if (known && static_cast<std::size_t>(j.job) < m_report.orders.locked.size() &&
            m_report.orders.locked[static_cast<std::size_t>(j.job)])
            flags.append(QStringLiteral("locked"));
        if (j.change)
            for (const std::string& r : j.change->reasons) reasons.append(text(r));
        addFeedstock(known && !j.running ? text(numbers->id) : QString(), flags, reasons);
        QJsonObject o{{QStringLiteral("id"), known ? QJsonValue(text(numbers->id)) : QJsonValue()},
                      {QStringLiteral("state"), stateWord(j)},
                      {QStringLiteral("variant"), v ? QJsonValue(text(v->name)) : QJsonValue()},
                      {QStringLiteral("setup"), v ? QJsonValue(text(v->setup)) : QJsonValue()}};
        const Job* told = known ? &m_problem.jobs[j.job] : nullptr;
        time(o, QStringLiteral("release"), known ? numbers->release : std::nullopt);
        if (told && told->release) o[QStringLiteral("release_at")] = iso(*told->release);
        o.insert(QStringLiteral("segments"), segments);
        o.insert(QStringLiteral("changeover_minutes"), static_cast<qint64>(j.changeoverMinutes));
        o.insert(QStringLiteral("turnaround_minutes"), static_cast<qint64>(j.turnaround));
        time(o, QStringLiteral("print_start"), j.printStart);
        time(o, QStringLiteral("print_end"), j.printEnd);
        time(o, QStringLiteral("complete"), j.complete < never ? std::optional(j.complete) : std::nullopt);
        time(o, QStringLiteral("due"), known ? numbers->due : std::nullopt);
        if (told && told->due) o[QStringLiteral("due_at")] = iso(*told->due);
        o.insert(QStringLiteral("late_minutes"), late ? QJsonValue(static_cast<qint64>(*late)) : QJsonValue());
        o.insert(QStringLiteral("flags"), flags);
        o.insert(QStringLiteral("reasons"), reasons);
        return o;
    }

    void addFeedstock(const QString& id, QJsonArray& flags, QJsonArray& reasons) const {
        const auto add = [](QJsonArray& to, const QString& what) {
            if (!to.contains(what)) to.append(what);
        };
        for (const Reservation& r : m_report.reservations) {
            if (id.isEmpty() || r.job != id) continue;
            if (r.isShort) add(flags, QStringLiteral("stock-short"));
            if (r.unknown) add(flags, QStringLiteral("weigh-first"));
            if (r.dryFirst) add(flags, QStringLiteral("dry-first"));
            if (!r.reason.isEmpty()) add(reasons, r.reason);
        }
    }

    const ShopProblem& m_problem;
    const PlanReport& m_report;
};

} // namespace

QJsonObject toJson(const ShopProblem& problem, const PlanReport& report) {
    return Writer(problem, report).write();
}

} // namespace interlude::planning
