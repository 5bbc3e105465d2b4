#include "views/changeover/draft.h"

#include "model/planning/plans/planned_choice.h"

#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude {

namespace {
QString tr(const char* text) {
    return QCoreApplication::translate("Draft", text);
}

QString nozzleText(const Shop& shop, const Nozzle& n, const MaterialId& material) {
    const NozzleType* type = shop.catalogue().nozzleType(n.type);
    const Material* m = shop.catalogue().material(material);
    QString life = tr("no history");
    if (type)
        if (const auto left = lifeLeft(n, *type, m && m->abrasive)) life = tr("%1 left").arg(words::cm3(*left));
    QString where = n.place;
    if (const Place* p = shop.catalogue().place(n.place)) where = p->name;
    if (const Printer* p = shop.catalogue().printer(n.place)) where = p->name;
    const QString family = n.meltFamily.isEmpty() ? tr("unused") : n.meltFamily;
    return QStringLiteral("%1 · %2 · %3 · %4").arg(n.serial, life, family, where);
}

QString dryText(DryState s) {
    switch (s) {
    case DryState::NoRule: return {};
    case DryState::Sealed: return tr("sealed");
    case DryState::Dry: return tr("dry");
    case DryState::Overdue: return tr("overdue for drying");
    case DryState::Unknown: return tr("drying not known");
    }
    return {};
}
} // namespace

QStringList Draft::liftedRules() const {
    QStringList out;
    for (const act::Override& o : lifted) out.append(o.rule);
    return out;
}

void Draft::forget() {
    partNozzle.clear();
    supportNozzle.clear();
    partSpool.clear();
    supportSpool.clear();
    lifted.clear();
    takeAdvisedCleanOut = true;
}

QSet<NozzleSerial> nozzlesSpokenFor(const Shop& shop, const PrinterId& except) {
    QSet<NozzleSerial> out;
    for (const SessionState& s : shop.sessions())
        if (s.isOpen() && s.printer != except)
            for (const NozzleChange& n : s.changeover.transition.nozzles)
                if (n.exchange && !n.in.isEmpty()) out.insert(n.in);
    return out;
}

std::optional<DraftResult> assemble(const Shop& shop, const Draft& draft, Instant now) {
    const PrinterNow* printer = shop.printer(draft.printer);
    const Job* job = shop.job(draft.job);
    if (!printer || !job || draft.variant < 0 || draft.variant >= job->variants.size()) return std::nullopt;
    TransitionRequest request = requestFor(*printer, *job, job->variants.at(draft.variant));
    request.takeAdvisedCleanOut = draft.takeAdvisedCleanOut;
    request.choosePartNozzle = draft.partNozzle;
    request.chooseSupportNozzle = draft.supportNozzle;
    request.choosePartSpool = draft.partSpool;
    request.chooseSupportSpool = draft.supportSpool;
    request.notFree = nozzlesSpokenFor(shop, draft.printer);
    request = planning::asPlanned(shop, request, now);
    DraftResult out;
    out.transition = judgeTransition(shop.catalogue(), shop.stock(), request, now);
    const QStringList lifted = draft.liftedRules();
    for (const Finding& f : refusalsIn(out.transition.verdicts))
        if (!f.overridable || !lifted.contains(f.rule)) out.standing.append(f);
    out.changeover = planChangeover(shop.catalogue(), shop.stock(), out.transition, now, lifted);
    if (out.changeover) {
        Instant begin = now;
        if (printer->activity == Activity::Printing && printer->printExpectedEnd)
            begin = std::max(now, *printer->printExpectedEnd);
        out.ready = std::max(begin, now + out.changeover->preparation) + out.changeover->partRemoval +
                    out.changeover->internal;
    }
    return out;
}

bool saySame(const DraftResult& a, const DraftResult& b) {
    const auto said = [](const DraftResult& r) {
        QStringList out = r.transition.facts;
        for (const Finding& f : r.transition.verdicts + r.standing) out << words::severity(f.severity) << sentence(f);
        for (const NozzleChange& n : r.transition.nozzles) out << n.out << n.in;
        for (const SpoolChange& s : r.transition.spools) out << s.out << s.in;
        if (!r.changeover) return out << sentence(r.changeover.error());
        const Changeover& c = *r.changeover;
        for (const Minutes m : {c.preparation, c.partRemoval, c.internal, c.handsOn, c.waiting}) out << QString::number(m.count());
        for (const PickItem& p : c.pickList) out << p.kind << p.id << p.place << p.note << QString::number(p.missing);
        for (const PlannedStep& s : c.steps) out << s.step.id << QString::number(s.planned.count());
        return out;
    };
    return a.ready.has_value() == b.ready.has_value() && said(a) == said(b);
}

QList<Candidate> nozzleCandidates(const Shop& shop, const Transition& t, Role role) {
    const Setup& wanted = t.request.wanted;
    const NozzleTypeId type = role == Role::Part ? wanted.partNozzle : wanted.supportNozzle;
    const MaterialId material = role == Role::Part ? wanted.part : wanted.support;
    NozzleSerial chosen = at(t.request.now, role).nozzle;
    for (const NozzleChange& n : t.nozzles)
        if (n.role == role && n.exchange) chosen = n.in;
    QList<Candidate> out;
    for (const Nozzle& n : shop.stock().nozzles) {
        if (n.type != type || n.where == NozzleWhere::Retired) continue;
        const bool here = n.where == NozzleWhere::Mounted && n.place == t.request.now.id;
        const bool fits = (n.where == NozzleWhere::Shelf || here) && !t.request.notFree.contains(n.serial);
        const Candidate c{n.serial, nozzleText(shop, n, material), fits};
        if (n.serial == chosen) out.prepend(c);
        else if (fits) out.append(c);
    }
    return out;
}

QList<Candidate> spoolCandidates(const Shop& shop, const Transition& t, Role role, Instant now) {
    const MaterialId wanted = role == Role::Part ? t.request.wanted.part : t.request.wanted.support;
    const Material* m = shop.catalogue().material(wanted);
    SpoolId chosen = at(t.request.now, role).spool;
    for (const SpoolChange& s : t.spools)
        if (s.role == role && s.load) chosen = s.in;
    QList<Candidate> out;
    for (const Spool& s : shop.stock().spools) {
        if (!m || s.material != wanted || s.where == SpoolWhere::Retired) continue;
        const bool here = s.where == SpoolWhere::Loaded && s.place == t.request.now.id;
        if (s.where == SpoolWhere::Loaded && !here) continue;
        const QString left = s.left ? words::grams(*s.left) : tr("grams not known");
        QString text = tr("%1 · %2 · lot %3").arg(s.id, left, s.lot);
        if (const QString dry = dryText(dryState(s, *m, now)); !dry.isEmpty()) text += QStringLiteral(" · ") + dry;
        const Candidate c{s.id, text, true};
        if (s.id == chosen) out.prepend(c);
        else out.append(c);
    }
    return out;
}

} // namespace interlude
