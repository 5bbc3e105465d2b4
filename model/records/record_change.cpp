#include "model/records/record_change.h"

#include "model/records/wording.h"

#include <algorithm>

namespace interlude {

using Lines = QList<RecordLine>;

Lines headOf(const Job* job, const Catalogue& c, const Changeover& work, const SessionState* session) {
    const TransitionRequest& request = work.transition.request;
    Lines out;
    if (job) {
        QStringList parts{job->id};
        if (!job->title.isEmpty()) parts.append(job->title);
        if (!request.variant.isEmpty()) parts.append(QStringLiteral("variant %1").arg(request.variant));
        out.append({QStringLiteral("Job"), parts.join(QStringLiteral(" · "))});
        if (!job->partNumber.isEmpty())
            out.append({QStringLiteral("Part number"), job->revision.isEmpty() ? job->partNumber
                                                       : QStringLiteral("%1, revision %2").arg(job->partNumber, job->revision)});
        if (!job->order.isEmpty()) out.append({QStringLiteral("Order"), QStringLiteral("%1, quantity %2").arg(job->order).arg(job->quantity)});
        if (!job->buildFile.isEmpty())
            out.append({QStringLiteral("Build file"), job->buildSha256.isEmpty() ? job->buildFile
                                                      : QStringLiteral("%1, SHA-256 %2").arg(job->buildFile, job->buildSha256)});
    }
    for (const Role role : {Role::Part, Role::Support}) {
        const MaterialId before = at(request.now, role).loaded;
        const MaterialId after = role == Role::Part ? request.wanted.part : request.wanted.support;
        const bool unloaded = std::any_of(work.transition.spools.begin(), work.transition.spools.end(),
                                          [role](const SpoolChange& s) { return s.role == role && s.unload; });
        QString said = QStringLiteral("from %1 to %2").arg(wording::material(c, before), wording::material(c, after));
        if (before == after) said = QStringLiteral("%1, unchanged").arg(wording::material(c, after));
        else if (after.isEmpty() && !unloaded) said = QStringLiteral("not used; %1 stays loaded").arg(wording::material(c, before));
        out.append({role == Role::Part ? QStringLiteral("Part material") : QStringLiteral("Support material"), said});
    }
    out.append({QStringLiteral("Chamber set-point"),
                work.transition.chamberBefore == work.transition.chamberAfter
                    ? QStringLiteral("%1, unchanged").arg(wording::celsius(work.transition.chamberAfter))
                    : QStringLiteral("from %1 to %2").arg(wording::celsius(work.transition.chamberBefore),
                                                          wording::celsius(work.transition.chamberAfter))});
    if (work.transition.has(fact::platformCover))
        out.append({QStringLiteral("Platform cover"), QStringLiteral("%1 one out, a fresh one in%2")
                        .arg(request.now.platformCover.isEmpty() ? QStringLiteral("any") : request.now.platformCover,
                             session && !session->doneStep(Effect::FitCover) ? QStringLiteral(" · NOT DONE") : QString())});
    if (!work.transition.facts.isEmpty()) {
        QStringList facts = work.transition.facts;
        facts.replaceInStrings(QStringLiteral("-"), QStringLiteral(" "));
        out.append({QStringLiteral("Facts"), facts.join(QStringLiteral(", "))});
    }
    return out;
}

static QString spoolText(const Shop& shop, const SpoolId& id) {
    if (id.isEmpty()) return QStringLiteral("none");
    const Spool* spool = shop.spool(id);
    if (!spool) return id;
    return QStringLiteral("%1, lot %2").arg(id, spool->lot.isEmpty() ? QStringLiteral("not stated") : spool->lot);
}

namespace {

/// What one step was to do to the printer: done, with what was scanned for it, or not.
struct Deed {
    QString label, mark;
    QString with; ///< what was scanned for it, else what was planned
};
struct DeedWords { const char *done, *wanted; };

Deed deedOf(const SessionState* session, Effect effect, const DeedWords& words, Role role, const QString& planned,
            std::optional<ScanTarget> target = {}) {
    const PlannedStep* step = session ? session->doneStep(effect) : nullptr;
    Deed out{QStringLiteral("%1, %2").arg(QLatin1String(step ? words.done : words.wanted), wording::position(role)), {}, planned};
    if (session && !step) out.mark = QStringLiteral(" · NOT DONE");
    if (!step || !target) return out;
    // Another nozzle or spool that serves as well may have been taken than the one that was planned.
    const auto& scans = session->progress(step->step.id).confirmed.scans;
    for (qsizetype i = 0; i < std::min(scans.size(), step->step.confirm.scans.size()); ++i)
        if (step->step.confirm.scans[i].target == *target) out.with = scans[i].value.trimmed();
    return out;
}

} // namespace

Lines materialLines(const Shop& shop, const Catalogue& c, const Changeover& work, const SessionState* session) {
    Lines out;
    for (const SpoolChange& s : work.transition.spools) {
        const bool part = s.role == Role::Part;
        if (s.unload) {
            const Deed d = deedOf(session, part ? Effect::UnloadPart : Effect::UnloadSupport, {"Unloaded", "To unload"}, s.role, s.out,
                                  part ? ScanTarget::SpoolOutPart : ScanTarget::SpoolOutSupport);
            out.append({d.label, spoolText(shop, d.with) + d.mark});
        }
        if (s.load) {
            const Deed d = deedOf(session, part ? Effect::LoadPart : Effect::LoadSupport, {"Loaded", "To load"}, s.role, s.in,
                                  part ? ScanTarget::SpoolInPart : ScanTarget::SpoolInSupport);
            out.append({d.label, spoolText(shop, d.with) + d.mark});
        } else if (!s.unload) {
            out.append({QStringLiteral("Stays, %1").arg(wording::position(s.role)), spoolText(shop, s.out)});
        }
    }
    for (const PurgePlan& p : work.transition.purges) {
        if (!p.needed) continue;
        const QString how = p.primeOnly ? QStringLiteral("prime %1").arg(wording::cm3(p.volume))
                                        : QStringLiteral("purge %1 of %2; at most %3 % of it leaves at the end")
                                              .arg(wording::cm3(p.volume), wording::material(c, p.from))
                                              .arg(p.residual * 100.0, 0, 'f', 1);
        const Deed d = deedOf(session, p.role == Role::Part ? Effect::PurgePart : Effect::PurgeSupport, {"Melt zone", "Melt zone"}, p.role, {});
        out.append({d.label, how + d.mark});
    }
    return out;
}

Lines nozzleLines(const Shop& shop, const Catalogue& c, const Changeover& work, const SessionState* session) {
    Lines out;
    const auto use = [&](const NozzleSerial& serial) {
        if (!session) {
            const Nozzle* n = shop.nozzle(serial);
            return !n ? QString() : QStringLiteral("use so far %1").arg(wording::runVolume(n->run));
        }
        QStringList said;
        if (session->runBefore.contains(serial)) said.append(QStringLiteral("before %1").arg(wording::runVolume(session->runBefore[serial])));
        if (session->runAfter.contains(serial)) said.append(QStringLiteral("after %1").arg(wording::runVolume(session->runAfter[serial])));
        return said.join(QStringLiteral(", "));
    };
    const auto line = [&](const Deed& d) {
        const QString used = use(d.with);
        out.append({d.label, wording::nozzle(c, shop.stock(), d.with) + (used.isEmpty() ? QString() : QStringLiteral(" · ") + used) + d.mark});
    };
    for (const NozzleChange& n : work.transition.nozzles) {
        const bool part = n.role == Role::Part;
        if (n.exchange) {
            if (!n.out.isEmpty())
                line(deedOf(session, part ? Effect::RemoveNozzlePart : Effect::RemoveNozzleSupport, {"Removed", "To remove"}, n.role, n.out,
                            part ? ScanTarget::NozzleOutPart : ScanTarget::NozzleOutSupport));
            if (!n.in.isEmpty())
                line(deedOf(session, part ? Effect::MountNozzlePart : Effect::MountNozzleSupport, {"Mounted", "To mount"}, n.role, n.in,
                            part ? ScanTarget::NozzleInPart : ScanTarget::NozzleInSupport));
        } else if (!n.in.isEmpty() || !n.out.isEmpty()) {
            line({QStringLiteral("Stays, %1").arg(wording::position(n.role)), {}, n.in.isEmpty() ? n.out : n.in});
        }
    }
    return out;
}

static QString residueText(const Catalogue& c, const QList<ResidueItem>& items) {
    if (items.isEmpty()) return QStringLiteral("none since the last clean-out");
    QStringList out;
    for (const ResidueItem& i : items) {
        QString text = i.material.isEmpty() ? QStringLiteral("unknown material") : wording::material(c, i.material);
        QStringList seen;
        if (i.chamberSeen) seen.append(QStringLiteral("chamber %1").arg(wording::celsius(*i.chamberSeen)));
        if (i.nozzleSeen) seen.append(QStringLiteral("nozzle %1").arg(wording::celsius(*i.nozzleSeen)));
        if (!seen.isEmpty()) text += QStringLiteral(", has seen %1").arg(seen.join(QStringLiteral(", ")));
        out.append(text);
    }
    return out.join(QStringLiteral("; "));
}

static QString levelText(CleanOut level) {
    switch (level) {
    case CleanOut::None: return QStringLiteral("none");
    case CleanOut::Advised: return QStringLiteral("advised");
    case CleanOut::Mandatory: return QStringLiteral("mandatory");
    }
    return {};
}

/// What became of the clean-out steps; before a session, what is planned.
static QString cleanOutDone(const Catalogue& c, const Changeover& work, const SessionState* session) {
    QStringList out;
    for (const PlannedStep& s : work.steps) {
        if (s.step.effect != Effect::CleanOut && s.step.effect != Effect::ClearWiper) continue;
        const StepProgress p = session ? session->progress(s.step.id) : StepProgress();
        if (!session) out += QStringLiteral("%1: planned").arg(s.step.title);
        else if (p.state == StepState::Done && p.ended)
            out += QStringLiteral("%1: %2 by %3").arg(s.step.title, wording::localTime(*p.ended, c.fleet.zone), p.who);
        else out += QStringLiteral("%1: %2").arg(s.step.title, p.state == StepState::Skipped ? QStringLiteral("skipped") : QStringLiteral("not done"));
    }
    if (out.isEmpty()) return QStringLiteral("no clean-out in this changeover");
    return out.join(QStringLiteral("; "));
}

Lines cleanOutLines(const Catalogue& c, const Changeover& work, const SessionState* session) {
    const Transition& t = work.transition;
    const QString rule = c.fleet.cleanOutRule == CleanOutRule::GoingUp ? QStringLiteral("going-up") : QStringLiteral("strict");
    Lines out;
    out.append({QStringLiteral("Residue before"), residueText(c, t.request.now.residue)});
    out.append({QStringLiteral("Rule"), QStringLiteral("%1, margin %2 K").arg(rule).arg(c.fleet.cleanOutMarginK)});
    out.append({QStringLiteral("Chamber"), QStringLiteral("clean-out %1: %2").arg(levelText(t.chamber.level), t.chamber.reason)});
    out.append({QStringLiteral("Wiper and bin"), QStringLiteral("clearing %1: %2").arg(levelText(t.wiper.level), t.wiper.reason)});
    if (!t.request.now.wiper.isEmpty() && t.request.now.wiper != t.request.now.residue)
        out.insert(1, {QStringLiteral("In wiper and bin"), residueText(c, t.request.now.wiper)});
    out.append({session ? QStringLiteral("What was done") : QStringLiteral("What is to do"), cleanOutDone(c, work, session)});
    return out;
}

} // namespace interlude
