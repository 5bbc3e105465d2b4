#include "app/verbs/opened_shop.h"

#include "model/intake/intake.h"

namespace interlude::app {

namespace {

QString grams(const std::optional<Mass>& m) {
    return m ? QStringLiteral("%1 g").arg(static_cast<double>(m->milligrams()) / 1000) : QStringLiteral("unknown mass");
}

QString use(const RunVolume& run) {
    return run.known ? QStringLiteral("%1 cm³ plain, %2 cm³ abrasive").arg(run.plain.cm3()).arg(run.abrasive.cm3())
                     : QStringLiteral("no history");
}

void sayEntry(const QStringList& parts) {
    QStringList said = parts;
    said.removeAll(QString());
    say(QStringLiteral("  ") + said.join(QStringLiteral("  ")));
}

/// What would come in, one line an entry.
void sayEntries(const Intake& in, const QTimeZone& zone) {
    for (const Job& j : in.jobs)
        sayEntry({j.id, j.title, QStringLiteral("x%1").arg(j.quantity),
                  j.due ? toZone(*j.due, zone).toString(QStringLiteral("'due' yyyy-MM-dd HH:mm")) : QString(),
                  QStringLiteral("%1 variant%2").arg(j.variants.size()).arg(j.variants.size() == 1 ? QString() : QStringLiteral("s"))});
    for (const Spool& s : in.spools) sayEntry({s.id, s.material, QStringLiteral("lot ") + s.lot, grams(s.left), s.place});
    for (const Nozzle& n : in.nozzles) sayEntry({n.serial, n.type, use(n.run), n.meltFamily, n.place});
}

QString summary(const Intake& in) {
    return QStringLiteral("%1: %2 new, %3 already there and unchanged, %4 already there but different in the file")
        .arg(in.file)
        .arg(in.count())
        .arg(in.known.size() - in.differing())
        .arg(in.differing());
}

/// The exit code; 0 = may go on.
int judge(const Intake& in) {
    for (const Problem& p : in.problems) complain(p.text());
    if (in.isGood()) return 0;
    complain(QStringLiteral("Nothing is imported: %1 thing%2 against the file")
                 .arg(in.errors())
                 .arg(in.errors() == 1 ? QStringLiteral(" stands") : QStringLiteral("s stand")));
    return 1;
}

} // namespace

int importCsv(const ImportOptions& options) {
    const auto kind = entryKindOf(options.what);
    if (!kind) return 2;
    const SystemClock clock;
    const auto read = [&](const Workbench& w) { return readIntakeFile(w.shop(), w.now(), *kind, options.file); };
    {
        // Looked at first beside whatever is open, so that a file at fault leaves no trace in the ledger.
        const auto looked = openShop(options.fleet, Access::Look, clock);
        if (!looked) return 1;
        const Intake in = read(*looked);
        if (const int wrong = judge(in)) return wrong;
        const Findings against = in.count() > 0 ? refusalsIn(looked->objections(actOf(in), options.who)) : Findings();
        if (!against.isEmpty()) {
            complain(sentence(against.first()));
            return against.first().rule == QStringLiteral("who") ? 2 : 1;
        }
        sayEntries(in, looked->catalogue().fleet.zone);
        say(summary(in));
        if (options.dryRun) {
            say(QStringLiteral("Tried only: nothing is imported."));
            return 0;
        }
        if (in.count() == 0) {
            say(QStringLiteral("Nothing to import."));
            return 0;
        }
    }
    const auto workbench = openShop(options.fleet, Access::Write, clock);
    if (!workbench) return 1;
    const Intake in = read(*workbench);
    if (!in.isGood()) return judge(in);
    const auto done = workbench->perform(actOf(in), options.who);
    if (!done) {
        complain(sentence(done.error()));
        return 1;
    }
    say(QStringLiteral("Imported %1, all in event %2 of the ledger.").arg(countOf(in.count(), *kind)).arg(done->sequence));
    return 0;
}

} // namespace interlude::app
