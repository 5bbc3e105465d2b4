// The printed week: every job of these days with its times, whatever its width on the board.

#include "model/planning/plans/plan_report.h"
#include "tests/harness/run_tests.h"
#include "tests/paper/pdf_reader.h"
#include "tests/plan_page/plan_bench.h"
#include "views/plan/plan_paper.h"

using namespace interlude;
using namespace interlude::tests;

class WeekTableTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<PlanBench> b;
    QTemporaryDir dir;

    PlanOnPaper onPaper() const {
        return {b->shop.bench->shop(), b->desk->problem(), b->desk->timetable(), QStringLiteral("draft"), b->shop.bench->now()};
    }
    QDate today() const { return toZone(b->shop.bench->now(), b->shop.bench->catalogue().fleet.zone).date(); }
    QString clock(Instant t) const { return toZone(t, b->shop.bench->catalogue().fleet.zone).toString(QStringLiteral("ddd d MMM HH:mm")); }

private Q_SLOTS:
    void init() {
        b = std::make_unique<PlanBench>();
        QVERIFY2(b->board, qPrintable(b->problems));
    }
    void cleanup() { b.reset(); }

    void everyJobOfTheWeekHasItsTimes() {
        for (const auto size : {plan_paper::Wide::A4, plan_paper::Wide::A3, plan_paper::Wide::Letter}) {
            const QString file = dir.filePath(QStringLiteral("week.pdf"));
            const auto pages = plan_paper::writeWeekPdf(onPaper(), today(), size, file);
            QVERIFY(pages && *pages >= 2);
            const PdfReader pdf(file);
            QCOMPARE(pdf.pages(), *pages);
            for (int i = 1; i <= *pages; ++i)
                QVERIFY2(pdf.text(i).contains(QStringLiteral("page %1 of %2").arg(i).arg(*pages)), qPrintable(pdf.text(i)));
            const QString text = pdf.text();
            int told = 0;
            const Instant end = b->shop.bench->now() + std::chrono::hours(6 * 24);
            for (const auto& list : b->desk->timetable().printers)
                for (const planning::TimedJob& j : list) {
                    if (j.job < 0 || j.running || b->desk->problem().at(j.printStart) >= end) continue;
                    // A line: the id, …, print from and to, part out, and the job's own due.
                    const Job& job = b->desk->problem().jobs[j.job];
                    const QString times = QStringLiteral("%1 %2 %3").arg(clock(b->desk->problem().at(j.printStart)), clock(b->desk->problem().at(j.printEnd)), clock(b->desk->problem().at(j.complete)));
                    const QString line = job.due ? times + QLatin1Char(' ') + clock(*job.due) : times;
                    QVERIFY2(text.contains(line), qPrintable(job.id + ": " + line + "\n" + text));
                    ++told;
                }
            QVERIFY(told > 20);
        }
    }

    /// More printers and jobs than a page holds: each printer's name stands again where its jobs go on.
    void onAsManyPagesAsNeeded() {
        const QString file = dir.filePath(QStringLiteral("long.pdf"));
        planning::Timetable many = b->desk->timetable();
        auto& first = many.printers.front();
        const std::size_t own = first.size();
        for (int n = 0; n < 12; ++n)
            for (std::size_t i = 0; i < own; ++i) first.push_back(first[i]);
        PlanOnPaper plan{b->shop.bench->shop(), b->desk->problem(), many, QStringLiteral("draft"), b->shop.bench->now()};
        const auto pages = plan_paper::writeWeekPdf(plan, today(), plan_paper::Wide::A4, file);
        QVERIFY(pages && *pages >= 4);
        const QString name = b->shop.bench->catalogue().fleet.printers.first().name;
        QVERIFY(PdfReader(file).text().count(name + QStringLiteral(", continued")) >= 1);
        if (const QString pictures = qEnvironmentVariable("INTERLUDE_PICTURES"); !pictures.isEmpty()) {
            QDir().mkpath(pictures);
            for (int i = 1; i <= 3; ++i) PdfReader(file).picture(i, 110).save(pictures + QStringLiteral("/week-%1.png").arg(i));
        }
    }

    void daysWithoutAnything() {
        const QString file = dir.filePath(QStringLiteral("later.pdf"));
        QVERIFY(plan_paper::writeWeekPdf(onPaper(), today().addDays(300), plan_paper::Wide::A4, file));
        QVERIFY(PdfReader(file).text().contains(QStringLiteral("nothing planned on these days")));
    }
};

INTERLUDE_TEST(WeekTableTest)
#include "week_table_test.moc"
