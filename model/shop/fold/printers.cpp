// What is in and on a printer, and its prints.

#include "model/shop/fold/fold.h"
#include "model/shop/fold/residue.h"

#include <algorithm>

namespace interlude {

void Fold::load(PrinterNow& p, Role role, const SpoolId& id) {
    Spool& s = *spool(id);
    s.where = SpoolWhere::Loaded;
    s.place = p.id;
    s.position = role;
    expose(s);
    at(p, role).spool = id;
    at(p, role).loaded = s.material;
}

void Fold::unload(PrinterNow& p, Role role, const QString& place) {
    if (Spool* s = spool(at(p, role).spool)) {
        s->where = SpoolWhere::Shelf;
        s->place = place;
        const Place* known = m_shop.m_catalogue->place(place);
        if (known && known->dry)
            seal(*s);
    }
    at(p, role).spool.clear();
    at(p, role).loaded.clear();
}

void Fold::mount(PrinterNow& p, Role role, const NozzleSerial& serial, const std::optional<RunVolume>& useSoFar) {
    Nozzle* n = nozzle(serial);
    if (!n)
        return;
    if (useSoFar)
        n->run = *useSoFar;
    n->where = NozzleWhere::Mounted;
    n->place = p.id;
    n->position = role;
    at(p, role).nozzle = serial;
}

void Fold::dismount(PrinterNow& p, Role role, const QString& place) {
    Nozzle* n = nozzle(at(p, role).nozzle);
    if (!n)
        return;
    n->where = NozzleWhere::Shelf;
    n->place = place;
    const NozzleType* type = m_shop.nozzleType(n->type);
    // A nozzle that is one unit with its melt zone takes the old material away with it.
    if (type && type->unitWithMeltZone)
        at(p, role).inMelt.clear();
    at(p, role).nozzle.clear();
}

void Fold::purge(PrinterNow& p, Role role, Volume v, std::optional<Temperature> nozzleSet, const QString& reference) {
    PositionNow& here = at(p, role);
    if (here.loaded.isEmpty())
        return;
    const Material* m = m_shop.material(here.loaded);
    if (!nozzleSet && m)
        nozzleSet = m->nozzle;
    use(here.spool, v, QStringLiteral("purged"), reference);
    run(here.nozzle, v, here.loaded);
    serveFamily(here.nozzle, here.loaded);
    raiseSeen(p.wiper, {}, nozzleSet);
    deposit(p.wiper, here.inMelt, {}, nozzleSet);
    deposit(p.wiper, here.loaded, {}, nozzleSet);
    here.inMelt = here.loaded;
}

void Fold::undress(PrinterNow& p) {
    for (const Role role : {Role::Part, Role::Support}) {
        unload(p, role, {});
        dismount(p, role, {});
        at(p, role) = PositionNow();
    }
}

void Fold::dress(PrinterNow& p, const OpeningSetup& s) {
    p.label = s.label;
    const auto wear = [&](Role role, const NozzleSerial& serial, const SpoolId& id, const MaterialId& stated) {
        mount(p, role, serial, {});
        if (spool(id))
            load(p, role, id);
        PositionNow& here = at(p, role);
        if (here.loaded.isEmpty())
            here.loaded = stated;
        const Nozzle* n = nozzle(serial);
        const bool used = n && (!n->meltFamily.isEmpty() || !n->run.known || n->run.plain + n->run.abrasive > Volume());
        if (!used)
            return; // nothing has flowed through it yet
        here.inMelt = here.loaded;
        serveFamily(serial, here.inMelt);
    };
    wear(Role::Part, s.partNozzle, s.partSpool, s.part);
    wear(Role::Support, s.supportNozzle, s.supportSpool, s.support);
    const bool fresh = s.platformCover == QStringLiteral("new") || s.platformCover == QStringLiteral("fresh");
    p.platformCover = s.platformCover.isEmpty() ? QString() : fresh ? QStringLiteral("fresh") : QStringLiteral("used");
    p.residue.clear();
    for (const OpeningResidue& r : s.residue)
        p.residue.append(ResidueItem{r.material, r.chamberMax, r.nozzleMax});
    p.wiper = p.residue;
    p.lastPart = p.part.loaded;
    p.lastSupport = p.support.loaded;
    if (s.lastPrint)
        p.lastPrintEnd = s.lastPrint;
    const Material* m = m_shop.material(p.part.loaded);
    p.chamberSet = p.lastPrintEnd && m ? m->chamber : std::nullopt;
    p.nozzleSet = p.lastPrintEnd && m ? std::optional(m->nozzle) : std::nullopt;
    p.open = false;
}

Fold::Trouble Fold::on(const act::SetupOpening& x) {
    PrinterNow* p = printer(x.setup.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.setup.printer);
    dress(*p, x.setup);
    return {};
}

Fold::Trouble Fold::on(const act::PrinterDeclared& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    undress(*p);
    dress(*p, x.setup);
    return {};
}

namespace {

const Variant* variantNamed(const Job& j, const QString& name) {
    const auto found =
        std::find_if(j.variants.cbegin(), j.variants.cend(), [&](const Variant& v) { return v.name == name; });
    return found == j.variants.cend() ? nullptr : &*found;
}

} // namespace

void Fold::startPrint(PrinterNow& p, Job& j, const QString& variantName, Minutes expected) {
    const Variant* variant = variantNamed(j, variantName);
    j.state = JobState::Printing;
    p.activity = Activity::Printing;
    p.job = j.id;
    p.variant = variantName;
    p.printStarted = m_at;
    p.printExpectedEnd = m_at + expected;
    p.open = false;
    if (!p.platformCover.isEmpty())
        p.platformCover = QStringLiteral("used");
    if (!variant)
        return;
    p.label = variant->setup.label;
    // A job by label has no materials, and a job without support leaves what is loaded there alone.
    if (!variant->setup.part.isEmpty())
        printWith(p, variant->setup, p.part.loaded, variant->setup.support.isEmpty() ? MaterialId() : p.support.loaded);
}

void Fold::printWith(PrinterNow& p, const Setup& setup, const MaterialId& part, const MaterialId& support) {
    const Material* partMaterial = m_shop.material(part);
    p.chamberSet = setup.chamber;
    if (!p.chamberSet && partMaterial)
        p.chamberSet = partMaterial->chamber;
    p.nozzleSet.reset();
    for (const Material* m : {partMaterial, m_shop.material(support)})
        if (m && (!p.nozzleSet || *p.nozzleSet < m->nozzle))
            p.nozzleSet = m->nozzle;
    const auto flow = [&](PositionNow& here, const MaterialId& material) {
        if (material.isEmpty())
            return;
        here.inMelt = material;
        serveFamily(here.nozzle, material);
    };
    flow(p.part, part);
    flow(p.support, support);
    // The highest temperature that a deposit has seen includes the run that left it.
    for (QList<ResidueItem>* where : {&p.residue, &p.wiper}) {
        raiseSeen(*where, p.chamberSet, p.nozzleSet);
        deposit(*where, part, p.chamberSet, p.nozzleSet);
        deposit(*where, support, p.chamberSet, p.nozzleSet);
    }
    p.lastPart = part;
    p.lastSupport = support;
}

Fold::Trouble Fold::on(const act::PrintStarted& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    Job* j = job(x.job);
    if (!j)
        return unknown(QStringLiteral("job"), x.job);
    startPrint(*p, *j, x.variant, x.expected);
    return {};
}

namespace {

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

Fold::Trouble Fold::on(const act::PrintEnded& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    Job* j = job(p->job);
    const Variant* named = j ? variantNamed(*j, p->variant) : nullptr;
    const Variant variant = named ? *named : Variant();
    const auto consume = [&](const PositionNow& here, Volume whole, const std::optional<Volume>& stated) {
        const Volume v = usedVolume(whole, stated, x.outcome, *p, m_at);
        const bool guessed = !stated && x.outcome != PrintOutcome::Good;
        use(here.spool, v, guessed ? QStringLiteral("used by job, estimated") : QStringLiteral("used by job"), p->job);
        run(here.nozzle, v, here.loaded);
    };
    consume(p->part, variant.partVolume, x.part);
    consume(p->support, variant.supportVolume, x.support);
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
    p->printStarted.reset();
    p->printExpectedEnd.reset();
    p->lastPrintEnd = m_at;
    p->activity = restingActivity(*p);
    return {};
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

Fold::Trouble Fold::on(const act::DowntimeBegun& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    p->activity = Activity::Down;
    p->downWhy = x.why;
    p->downSince = m_at;
    p->downUntil = x.until;
    return {};
}

Fold::Trouble Fold::on(const act::DowntimeEnded& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    p->downWhy.clear();
    p->downSince.reset();
    p->downUntil.reset();
    p->activity = restingActivity(*p);
    return {};
}

} // namespace interlude
