#include "app/rehearsal/pictures.h"
#include "app/rehearsal/rehearse_plan.h"
#include "app/rehearsal/session_driver.h"
#include "app/verbs/opened_shop.h"

#include "model/records/record.h"
#include "views/paper/paper.h"
#include "views/photos/photo.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

namespace interlude::app {

namespace {

/// The ledger that the rehearsal may write: a copy of the fleet's own, event by event, or a new one.
Outcome<std::unique_ptr<EventStore>> copyOfLedger(const FleetOptions& options, const Catalogue& c, const QDir& dir) {
    auto copy = openSqliteStore(dir.filePath(QStringLiteral("rehearsal.sqlite")), c.fleet.id, QStringLiteral("rehearsal"));
    if (!copy) return copy;
    const auto file = ledgerFile(options.ledger, c.fleet.ledger, options.folder, c.fleet.id);
    if (!file || !QFileInfo::exists(*file)) return copy;
    const auto own = openSqliteStore(*file, c.fleet.id, {}, true);
    if (!own) return tl::unexpected(own.error());
    std::optional<Finding> bad;
    const auto read = (*own)->read(0, [&](const Event& e) {
        const auto done = (*copy)->append(e);
        if (!done) bad = done.error();
        return !bad;
    });
    if (!read) return tl::unexpected(read.error());
    if (bad) return tl::unexpected(*bad);
    return copy;
}

/// The changeover with the most to see: on an idle printer, possible, with the most hands-on minutes.
struct Choice {
    PrinterId printer;
    JobId job;
    QString variant;
    Minutes handsOn{0};
};
std::optional<Choice> choose(const Shop& shop, Instant now) {
    std::optional<Choice> best;
    for (const PrinterNow& printer : shop.printers()) {
        if (printer.activity == Activity::Down || printer.activity == Activity::Printing ||
            shop.openSession(printer.id))
            continue;
        for (const Job& job : shop.jobs()) {
            if (job.state != JobState::Open) continue;
            for (const Variant& v : job.variants) {
                const Transition t = judgeTransition(shop.catalogue(), shop.stock(), requestFor(printer, job, v), now);
                if (!t.possible()) continue;
                const auto c = planChangeover(shop.catalogue(), shop.stock(), t, now);
                if (c && (!best || c->handsOn > best->handsOn)) best = Choice{printer.id, job.id, v.name, c->handsOn};
            }
        }
    }
    return best;
}

Outcome<int> printPapers(const Workbench& bench, qint64 number, const QDir& dir) {
    const SessionState& session = *bench.shop().session(number);
    const Record recorded = recordWithPhotos(bench, session);
    auto pages = paper::writeRecordPdf(recorded, dir.filePath(QStringLiteral("record.pdf")));
    if (!pages) return pages;
    if (auto done = paper::writeRecordPdf(checklistOf(bench.shop(), session.changeover, bench.now()),
                                          dir.filePath(QStringLiteral("checklist.pdf")));
        !done)
        return done;
    for (const char* kind : {"nozzles", "spools", "printers", "places"}) {
        const QString name = QString::fromLatin1(kind);
        auto done = paper::writeLabelsPdf(paper::labelsOf(bench.shop(), name), dir.filePath(QStringLiteral("labels-%1.pdf").arg(name)));
        if (!done) return done;
    }
    if (auto done = paper::writeBundle(recorded, dir.filePath(QStringLiteral("bundle"))); !done)
        return tl::unexpected(done.error());
    return pages;
}

int fail(const Finding& f) {
    complain(QStringLiteral("The rehearsal stopped: %1").arg(sentence(f)));
    return 1;
}

Outcome<int> carryOut(Workbench& bench, ManualClock& clock, const Choice& choice, const QDir& dir) {
    const QString who = bench.catalogue().fleet.people.isEmpty() ? QStringLiteral("RH")
                                                                 : bench.catalogue().fleet.people.front().initials;
    SessionDriver driver(bench, clock, who);
    const Shop& shop = bench.shop();
    if (const auto planned = publishPlan(bench, who, choice.printer, choice.job, choice.variant, dir); !planned)
        return planned;
    Pictures pictures(bench, who, dir);
    const auto before = pictures.take(QStringLiteral("before"), choice.printer);
    if (!before) return tl::unexpected(before.error());
    const auto session = driver.start(choice.printer, choice.job, choice.variant);
    if (!session) return tl::unexpected(session.error());
    const auto summary = paper::writeSummaryPdf(shop, shop.session(*session)->changeover, bench.now(),
                                                dir.filePath(QStringLiteral("summary.pdf")));
    if (!summary) return summary;
    // Half way there is most to see: steps done, a wait running, steps to come.
    const auto total = shop.session(*session)->changeover.steps.size();
    bool half = false;
    while (true) {
        const auto more = driver.next(*session);
        if (!more) return tl::unexpected(more.error());
        const SessionState& state = *shop.session(*session);
        const bool waiting = !guide(shop, state, bench.now()).waits.isEmpty();
        if (!half && state.confirmedOrder.size() * 2 >= total && (waiting || state.confirmedOrder.size() * 3 >= total * 2)) {
            half = true;
            if (const auto taken = pictures.take(QStringLiteral("during"), choice.printer); !taken)
                return tl::unexpected(taken.error());
        }
        if (!*more) break;
    }
    if (const auto finished = driver.finish(*session); !finished) return tl::unexpected(finished.error());
    if (const auto after = pictures.take(QStringLiteral("after"), choice.printer); !after)
        return tl::unexpected(after.error());
    return printPapers(bench, *session, dir);
}

} // namespace

int rehearse(const FleetOptions& options, const QString& out) {
    const CataloguePtr catalogue = readFleet(options.folder);
    if (!catalogue) return 1;
    const QDir dir(out);
    if (dir.exists(QStringLiteral("rehearsal.sqlite"))) {
        complain(QStringLiteral("%1 holds an earlier rehearsal; name another folder or remove it").arg(out));
        return 1;
    }
    if (!QDir().mkpath(out)) {
        complain(QStringLiteral("%1 cannot be made; choose a place where you may write").arg(out));
        return 1;
    }
    auto store = copyOfLedger(options, *catalogue, dir);
    if (!store) return fail(store.error());
    ManualClock clock(SystemClock().now());
    auto bench = Workbench::open(catalogue, std::move(*store), clock, QStringLiteral("rehearsal"));
    if (!bench) return fail(bench.error());
    const auto choice = choose((*bench)->shop(), (*bench)->now());
    if (!choice) {
        complain(QStringLiteral("No idle printer can be changed over to an open job that names materials and nozzles"));
        return 1;
    }
    complain(QStringLiteral("Rehearsing %1 to job %2 %3 …").arg(choice->printer, choice->job, choice->variant));
    const auto pages = carryOut(**bench, clock, *choice, dir);
    if (!pages) return fail(pages.error());
    if (const auto misfit = (*bench)->store().verify())
        return fail({Severity::Refusal, QStringLiteral("ledger"), misfit->reason, {}, {}, false});
    say(QStringLiteral("Pictures of every tab: %1").arg(dir.absoluteFilePath(QStringLiteral("*.png"))));
    say(QStringLiteral("Session record, %1 pages: %2").arg(*pages).arg(dir.absoluteFilePath(QStringLiteral("record.pdf"))));
    say(QStringLiteral("Also there: plan-week.pdf, plan.json, plan.csv, plan.ics, summary.pdf, checklist.pdf, labels-*.pdf, bundle/, rehearsal.sqlite"));
    return 0;
}

} // namespace interlude::app
