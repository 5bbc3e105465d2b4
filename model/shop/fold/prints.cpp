// A print from its start until its part is out: what it used, what it leaves behind, what is noted of it.

#include "model/shop/fold/fold.h"

#include <algorithm>
#include <utility>

namespace interlude {

void Fold::startPrint(PrinterNow& p, Job& j, const QString& variantName, Instant started, Minutes expected,
                      qint64 session) {
    const Variant* variant = j.variantNamed(variantName);
    j.state = JobState::Printing;
    p.activity = Activity::Printing;
    p.job = j.id;
    p.variant = variantName;
    p.printStarted = started;
    p.printExpectedEnd = started + expected;
    noteStart(p, variant, session);
    printWith(p, variant ? &variant->setup : nullptr, materialOf());
    if (!variant || variant->setup.part.isEmpty())
        return;
    serveFamily(p.part.nozzle, p.lastPart);
    serveFamily(p.support.nozzle, p.lastSupport);
}

Fold::Trouble Fold::on(const act::PrintStarted& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    Job* j = job(x.job);
    if (!j)
        return unknown(QStringLiteral("job"), x.job);
    startPrint(*p, *j, x.variant, m_at, x.expected);
    return {};
}

Fold::Trouble Fold::on(const act::PrintOpening& x) {
    PrinterNow* p = printer(x.print.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.print.printer);
    Job* j = job(x.print.job);
    if (!j)
        return unknown(QStringLiteral("job"), x.print.job);
    startPrint(*p, *j, x.print.variant, x.print.started, x.print.expected);
    return {};
}

namespace {

QString usedEstimated() {
    return QStringLiteral("used by job, estimated");
}

/// What this spool gave to a print that began then: the entries made as it came off, corrected by a weighing that
/// followed. A weighing of a spool whose weight was not known before says nothing about the print.
Mass usedSince(const Spool& s, const JobId& job, Instant started) {
    Mass used;
    bool known = false, follows = false;
    for (const StockEntry& e : s.entries) {
        const bool weighing = e.why == QStringLiteral("weighed");
        if (e.why == usedEstimated() && e.reference == job && e.at >= started) {
            used = used - e.change;
            follows = true;
        } else if (weighing && follows) {
            if (known)
                used = used - e.change;
            follows = false;
        } else {
            follows = false;
        }
        if (weighing || e.why == QStringLiteral("received"))
            known = true;
        else if (e.change == Mass())
            known = false; // weighed without a tare, or used without a density
    }
    return std::max(used, Mass());
}

/// A failed or stopped print without figures used the share of its volumes that its time suggests.
Volume usedVolume(Volume whole, const std::optional<Volume>& stated, PrintOutcome outcome, const PrinterNow& p,
                  Instant now) {
    if (stated)
        return *stated;
    if (outcome == PrintOutcome::Good)
        return whole;
    if (!p.printStarted || !p.printExpectedEnd || *p.printExpectedEnd <= *p.printStarted)
        return whole;
    const qint64 planned = (*p.printExpectedEnd - *p.printStarted).count();
    const qint64 passed = std::clamp<qint64>((now - *p.printStarted).count(), 0, planned);
    const double share = static_cast<double>(passed) / static_cast<double>(planned);
    return Volume::fromMm3(std::llround(static_cast<double>(whole.mm3()) * share));
}

} // namespace

Volume Fold::takenOff(const PrinterNow& p, Role role) const {
    Volume sum;
    if (!p.printStarted)
        return sum;
    for (const Spool& s : std::as_const(m_shop.m_stock.spools)) {
        const Material* m = m_shop.material(s.material);
        if (m && s.position == role)
            sum = sum + volumeOf(usedSince(s, p.job, *p.printStarted), m->densityGPerCm3);
    }
    return sum;
}

void Fold::useSoFar(PrinterNow& p, Role role) {
    const Job* j = job(p.job);
    const Variant* variant = j ? j->variantNamed(p.variant) : nullptr;
    const Spool* s = spool(at(p, role).spool);
    const Material* m = s ? m_shop.material(s->material) : nullptr;
    if (!variant || !m || !p.printStarted)
        return;
    const Volume whole = role == Role::Part ? variant->partVolume : variant->supportVolume;
    const Volume by = usedVolume(whole, {}, PrintOutcome::Stopped, p, m_at), before = takenOff(p, role);
    Volume v = std::max(by, before) - before;
    if (s->left)
        v = std::min(v, volumeOf(std::max(*s->left, Mass()), m->densityGPerCm3));
    use(s->id, v, usedEstimated(), p.job);
}

Fold::Trouble Fold::on(const act::PrintEnded& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    Job* j = job(p->job);
    const Variant* named = j ? j->variantNamed(p->variant) : nullptr;
    const Variant variant = named ? *named : Variant();
    const auto consume = [&](Role role, Volume whole, const std::optional<Volume>& stated) {
        const PositionNow& here = at(*p, role);
        const Volume before = takenOff(*p, role);
        // A print that failed with nothing on it any more used what the spools taken off it gave.
        const bool ranOut = here.spool.isEmpty() && before > Volume() && !stated && x.outcome != PrintOutcome::Good;
        const Volume v = ranOut ? before : usedVolume(whole, stated, x.outcome, *p, m_at);
        const bool guessed = before > Volume() || (!stated && x.outcome != PrintOutcome::Good);
        use(here.spool, std::max(v, before) - before, guessed ? usedEstimated() : QStringLiteral("used by job"),
            p->job);
        run(here.nozzle, v, here.loaded.isEmpty() ? here.inMelt : here.loaded);
    };
    consume(Role::Part, variant.partVolume, x.part);
    consume(Role::Support, variant.supportVolume, x.support);
    if (j) {
        switch (x.outcome) {
        case PrintOutcome::Good:
            j->state = x.partOnPlatform ? JobState::PartLying : JobState::Done;
            break;
        case PrintOutcome::Failed:
            j->state = JobState::Failed;
            break;
        case PrintOutcome::Stopped:
            j->state = JobState::Open;
            break; // to be printed again
        }
    }
    if (!x.partOnPlatform) {
        p->job.clear();
        p->variant.clear();
    }
    noteEnd(*p, x.outcome);
    p->printStarted.reset();
    p->printExpectedEnd.reset();
    p->lastPrintEnd = m_at;
    p->activity = restingActivity(*p);
    return {};
}

PrintRun* Fold::runningPrint(const PrinterId& printer) {
    for (PrintRun& run : m_shop.m_prints)
        if (run.printer == printer && !run.ended)
            return &run;
    return nullptr;
}

void Fold::noteStart(const PrinterNow& p, const Variant* variant, qint64 session) {
    noteEnd(p, {}); // nobody said how the one before ended
    PrintRun run;
    run.event = m_event.sequence;
    run.printer = p.id;
    run.job = p.job;
    run.variant = p.variant;
    run.started = *p.printStarted;
    run.session = session;
    for (const Role role : {Role::Part, Role::Support}) {
        // Of a job known by a label nothing says which positions it uses: both, then.
        const bool used = !variant || !variant->setup.label.isEmpty() || role == Role::Part || !variant->setup.support.isEmpty();
        const PositionNow& here = at(p, role);
        if (used && !here.spool.isEmpty())
            run.spools.append(here.spool);
        if (used && !here.nozzle.isEmpty())
            run.nozzles.append(here.nozzle);
    }
    m_shop.m_prints.insert(run.event, run);
}

void Fold::noteEnd(const PrinterNow& p, std::optional<PrintOutcome> outcome) {
    PrintRun* run = runningPrint(p.id);
    if (!run)
        return;
    run->ended = m_at;
    run->outcome = outcome;
    run->endEvent = m_event.sequence;
}

Activity Fold::restingActivity(const PrinterNow& p) {
    const SessionState* s = openSession(p.id);
    if (s && !s->doneStep(Effect::StartPrint))
        return Activity::InChangeover;
    return p.job.isEmpty() ? Activity::Idle : Activity::PartLying;
}

void Fold::takePartOut(PrinterNow& p) {
    if (Job* j = job(p.job); j && j->state == JobState::PartLying)
        j->state = JobState::Done;
    p.job.clear();
    p.variant.clear();
}

Fold::Trouble Fold::on(const act::PartRemoved& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    takePartOut(*p);
    if (p->activity != Activity::Down)
        p->activity = restingActivity(*p);
    return {};
}

} // namespace interlude
