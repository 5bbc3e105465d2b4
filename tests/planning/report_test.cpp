// A plan of the sample fleet as JSON, CSV and iCalendar, and published.

#include "model/planning/dispatch.h"
#include "model/planning/plans/draft.h"
#include "model/planning/plans/plan_maker.h"
#include "model/planning/plans/published.h"
#include "model/planning/plans/why.h"
#include "model/planning/plans/worth_it.h"
#include "tests/changeover_page/sample_bench.h"
#include "tests/harness/run_tests.h"

#include "model/catalogue/csv.h"

#include <QJsonArray>

#include <libical/ical.h>

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

class ReportTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<SampleBench> sample;
    ShopProblem problem;
    PlanReport report;

private Q_SLOTS:
    void initTestCase() {
        sample = std::make_unique<SampleBench>();
        QVERIFY2(sample->catalogue, qPrintable(sample->problems));
        problem = shopProblem(sample->shop(), sample->bench->now());
        SearchOptions options;
        options.iterations = 300;
        report = makePlan(sample->shop(), problem, options);
    }
    void everyJobIsPlacedOrNamed() {
        QSet<int> seen;
        for (const auto& list : report.timetable.printers)
            for (const TimedJob& j : list) {
                QVERIFY(!seen.contains(j.job));
                seen.insert(j.job);
            }
        for (const NotPlaced& n : report.timetable.notPlaced) {
            QVERIFY(!n.reason.empty());
            QVERIFY(!seen.contains(n.job));
            seen.insert(n.job);
        }
        QCOMPARE(static_cast<std::size_t>(seen.size()), problem.problem.jobs.size());
    }
    void beatsBothYardsticks() {
        QVERIFY(report.timetable.totals.cost < report.firstInFirstOut.cost);
        QVERIFY(report.timetable.totals.cost < report.sameSetupFirst.cost);
    }
    void jsonHasEveryKey() {
        const QJsonObject o = toJson(problem, report);
        for (const char* key : {"goal", "value", "lower_bound", "gap", "seconds", "iterations", "seed", "now", "totals",
                                "yardsticks", "printers", "not_placed"})
            QVERIFY2(o.contains(QLatin1String(key)), key);
        QVERIFY(o[QStringLiteral("seconds")].isNull()); // iterations were given
        for (const char* key : {"turnaround_minutes", "changeover_minutes", "hands_on_minutes", "weighted_tardiness",
                                "late_jobs", "makespan_minutes", "clean_outs", "cost"}) {
            QVERIFY2(o[QStringLiteral("totals")].toObject().contains(QLatin1String(key)), key);
            for (const char* yardstick : {"first_in_first_out", "same_setup_first"})
                QVERIFY2(o[QStringLiteral("yardsticks")].toObject()[QLatin1String(yardstick)].toObject().contains(
                             QLatin1String(key)), key);
        }
        int jobs = 0;
        for (const QJsonValue& p : o[QStringLiteral("printers")].toArray())
            for (const QJsonValue& j : p.toObject()[QStringLiteral("jobs")].toArray()) {
                ++jobs;
                for (const char* key : {"id", "state", "variant", "setup", "release", "release_at", "segments",
                                        "changeover_minutes", "turnaround_minutes", "print_start", "print_start_at",
                                        "print_end", "complete", "due", "late_minutes", "flags", "reasons"})
                    QVERIFY2(j.toObject().contains(QLatin1String(key)), key);
                for (const QJsonValue& s : j.toObject()[QStringLiteral("segments")].toArray())
                    for (const char* key : {"kind", "steps", "people", "tools", "start", "start_at", "end", "end_at",
                                            "nozzle_taken", "nozzle_freed"})
                        QVERIFY2(s.toObject().contains(QLatin1String(key)), key);
            }
        QCOMPARE(jobs + o[QStringLiteral("not_placed")].toArray().size(), static_cast<qsizetype>(problem.problem.jobs.size()));
    }
    /// What a reader of the JSON can reckon himself agrees with the totals.
    void totalsFollowFromTheJobs() {
        const QJsonObject o = toJson(problem, report);
        qint64 turnaround = 0, handsOn = 0, makespan = 0, late = 0;
        for (const QJsonValue& p : o[QStringLiteral("printers")].toArray())
            for (const QJsonValue& v : p.toObject()[QStringLiteral("jobs")].toArray()) {
                const QJsonObject j = v.toObject();
                turnaround += j[QStringLiteral("turnaround_minutes")].toInteger();
                makespan = std::max(makespan, j[QStringLiteral("complete")].toInteger());
                late += j[QStringLiteral("late_minutes")].toInteger() > 0 ? 1 : 0;
                for (const QJsonValue& s : j[QStringLiteral("segments")].toArray())
                    handsOn += s.toObject()[QStringLiteral("people")].toInteger() *
                               (s.toObject()[QStringLiteral("end")].toInteger() - s.toObject()[QStringLiteral("start")].toInteger());
            }
        const QJsonObject t = o[QStringLiteral("totals")].toObject();
        QCOMPARE(turnaround, t[QStringLiteral("turnaround_minutes")].toInteger());
        QCOMPARE(handsOn, t[QStringLiteral("hands_on_minutes")].toInteger());
        QCOMPARE(makespan, t[QStringLiteral("makespan_minutes")].toInteger());
        QCOMPARE(late, t[QStringLiteral("late_jobs")].toInteger());
    }
    /// No two hands-on pieces at the same minute need more people than there are.
    void crewIsNeverOverdrawn() {
        std::map<Minute, int> change;
        for (const auto& list : report.timetable.printers)
            for (const TimedJob& j : list)
                for (const TimedWork& w : j.work) change[w.start] += w.work->people, change[w.end] -= w.work->people;
        int busy = 0;
        for (const auto& [minute, people] : change) {
            busy += people;
            int there = 0;
            for (const CrewFrom& c : problem.problem.crew)
                if (c.from <= minute) there = c.crew;
            QVERIFY2(busy <= there, qPrintable(QStringLiteral("minute %1: %2 of %3").arg(minute).arg(busy).arg(there)));
        }
    }
    void csvReadsBack() {
        Problems problems;
        const CsvTable table = readCsv(QStringLiteral("plan.csv"),
                                       QString::fromUtf8(toCsv(problem, report, *sample->catalogue)), problems);
        QVERIFY(problems.isEmpty());
        std::size_t placed = 0;
        for (const auto& list : report.timetable.printers) placed += list.size();
        QCOMPARE(table.records.size(), placed);
    }
    /// The minutes are those of the CSV, and the time is the shop's, as people say it.
    void calendarSaysWhatTheCsvSays() {
        QString text = QString::fromUtf8(toCalendar(problem, report, *sample->catalogue));
        text.remove(QStringLiteral("\r\n ")).remove(QLatin1Char('\\'));
        int seen = 0;
        for (const auto& list : report.timetable.printers)
            for (const TimedJob& j : list) {
                if (j.running || j.job < 0 || j.changeoverMinutes == 0) continue;
                const QString summary = QStringLiteral("(job %1)").arg(problem.jobs[j.job].id);
                const QString event = text.mid(text.lastIndexOf(QStringLiteral("BEGIN:VEVENT"), text.indexOf(summary))).section(QStringLiteral("END:VEVENT"), 0, 0);
                QVERIFY2(event.contains(QStringLiteral(" min of %1 min").arg(j.changeoverMinutes)), qPrintable(event));
                const QString start = toZone(problem.at(j.printStart), sample->catalogue->fleet.zone).toString(QStringLiteral("ddd d MMM HH:mm"));
                QVERIFY2(event.contains(QStringLiteral("Print starts %1.").arg(start)), qPrintable(event));
                ++seen;
            }
        QVERIFY(seen > 10);
    }
    void calendarReadsBack() {
        const QByteArray text = toCalendar(problem, report, *sample->catalogue);
        for (const QByteArray& line : text.split('\n')) QVERIFY2(line.trimmed().size() <= 75, line.constData());
        icalcomponent* calendar = icalparser_parse_string(text.constData());
        QVERIFY(calendar);
        int events = 0;
        for (icalcomponent* e = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT); e;
             e = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT)) {
            ++events;
            QVERIFY(icalcomponent_get_uid(e));
            QVERIFY(icaltime_compare(icalcomponent_get_dtstart(e), icalcomponent_get_dtend(e)) < 0);
            QVERIFY(QByteArray(icalcomponent_get_description(e)).contains("People needed"));
        }
        icalcomponent_free(calendar);
        int changeovers = 0;
        for (const auto& list : report.timetable.printers)
            for (const TimedJob& j : list) changeovers += !j.running && j.changeoverMinutes > 0 ? 1 : 0;
        QCOMPARE(events, changeovers);
    }
    void publishedAndReadBack() {
        SampleBench other;
        ShopProblem p = shopProblem(other.shop(), other.bench->now());
        const Orders orders = dispatch(p.problem, *p.changes);
        const Timetable t = timetable(p.problem, *p.changes, orders);
        const auto done = other.bench->perform(
            act::PlanPublished{planOf(p, orders, t, Goal::Cost, reservationsOf(other.shop(), p, t))});
        QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
        ShopProblem again = shopProblem(other.shop(), other.bench->now());
        const Orders back = publishedOrders(other.shop(), again);
        for (std::size_t printer = 0; printer < back.printers.size(); ++printer) {
            std::vector<planning::Place> placed;
            for (const TimedJob& j : t.printers[printer])
                if (!j.running) placed.push_back({j.job, j.variant});
            QCOMPARE(back.printers[printer].size(), placed.size());
            QVERIFY(back.printers[printer] == placed);
        }
        QVERIFY(departures(other.shop(), other.bench->now()).isEmpty());
        // A working day later nothing has been begun.
        const QList<Departure> late = departures(other.shop(), other.bench->now() + Minutes(24 * 60));
        QVERIFY(!late.isEmpty());
        QCOMPARE(late.first().what, Departure::What::NotStarted);
    }
    void aDraftKnowsItsPriceBeforehand() {
        Draft draft(sample->shop(), sample->bench->now(), Goal::Cost);
        const Orders grouped = groupByFamily(draft.problem(), draft.orders());
        const Totals before = draft.timetable().totals;
        const Price price = priceBetween(before, draft.timed(grouped).totals);
        draft.take(grouped, QStringLiteral("group"));
        QVERIFY(priceBetween(before, draft.timetable().totals) == price);
        QCOMPARE(draft.undoText(), QStringLiteral("group"));
        draft.undo();
        QCOMPARE(draft.timetable().totals.cost, before.cost);
        draft.redo();
        QVERIFY(draft.orders() == grouped);
    }
    void groupedFamiliesGoFromCoolerToHotter() {
        const Orders grouped = groupByFamily(problem, problem.noOrders());
        QVERIFY(grouped.leftOut.empty());
        for (const auto& list : grouped.printers) {
            QList<int> runs;
            for (const planning::Place& p : list) {
                const int family = problem.problem.jobs[static_cast<std::size_t>(p.job)].variants[static_cast<std::size_t>(p.variant)].family;
                if (!runs.isEmpty() && runs.last() == family) continue;
                QVERIFY2(!runs.contains(family), "one run a family");
                runs.append(family);
            }
        }
    }
    void lockedJobsStay() {
        Orders orders = groupByFamily(problem, problem.noOrders());
        const int job = orders.printers[0][1].job, other = orders.printers[0][2].job;
        orders = setLocked(orders, {job}, true);
        const auto moved = moveJobs(problem, orders, {job}, {1, 0, {}});
        QVERIFY(!moved);
        QCOMPARE(moved.error().rule, QStringLiteral("locked"));
        const auto pushed = moveJobs(problem, orders, {other}, {0, 0, {}});
        QVERIFY2(!pushed, "it would push the locked one back");
        QVERIFY(moveJobs(problem, orders, {other}, {0, 5, {}}));
    }
    void whyExplainsLateness() {
        int late = 0;
        for (const auto& list : report.timetable.printers)
            for (const TimedJob& j : list) {
                const Why why = whyOf(problem, report.timetable, j);
                const auto& due = problem.problem.jobs[static_cast<std::size_t>(j.job)].due;
                const bool isLate = due && j.complete > *due;
                QCOMPARE(!why.late.isEmpty(), isLate);
                late += isLate ? 1 : 0;
                if (j.change && j.change->cleanOut) QVERIFY(!why.changeover.isEmpty());
                for (const QString& line : why.waits + why.late) QVERIFY2(!line.contains(QStringLiteral("bay-")), qPrintable(line));
            }
        QCOMPARE(late, report.timetable.totals.lateJobs);
    }
    void worthItComparesEveryVariantOnEveryPrinter() {
        const int job = problem.jobNumbers.value(QStringLiteral("7402"));
        const QList<WorthRow> rows = worthOf(problem, job, report.orders);
        QCOMPARE(rows.size(), 12); // two variants, six printers
        int best = 0;
        Cents least = std::numeric_limits<Cents>::max();
        for (const WorthRow& r : rows) {
            best += r.best ? 1 : 0;
            if (!r.impossible.isEmpty()) continue;
            QVERIFY(r.print > 0);
            if (r.displaces.isEmpty()) least = std::min(least, r.total());
        }
        QCOMPARE(best, 1);
        for (const WorthRow& r : rows)
            if (r.best) QCOMPARE(r.total(), least);
        QVERIFY(!rows.last().impossible.isEmpty()); // the hottest printers take no ASA
    }
};
INTERLUDE_TEST(ReportTest)
#include "report_test.moc"
