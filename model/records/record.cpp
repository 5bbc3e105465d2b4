#include "model/records/record.h"

#include "model/records/record_steps.h"
#include "model/records/wording.h"

namespace interlude {

namespace {

using Lines = QList<RecordLine>;

QString stateText(const SessionState& s) {
    switch (s.phase) {
    case SessionPhase::Open: return QStringLiteral("open, not finished");
    case SessionPhase::Paused: return QStringLiteral("paused, not finished");
    case SessionPhase::Finished: return QStringLiteral("finished");
    case SessionPhase::Stopped: return QStringLiteral("stopped half way");
    }
    return {};
}

Lines headOf(const Shop& shop, const Catalogue& c, const Changeover& work) {
    const TransitionRequest& request = work.transition.request;
    Lines out;
    if (const Job* job = shop.job(request.job)) {
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
        out.append({role == Role::Part ? QStringLiteral("Part material") : QStringLiteral("Support material"),
                    before == after ? QStringLiteral("%1, unchanged").arg(wording::material(c, after))
                                    : QStringLiteral("%1 → %2").arg(wording::material(c, before), wording::material(c, after))});
    }
    out.append({QStringLiteral("Chamber set-point"), QStringLiteral("%1 → %2").arg(wording::celsius(work.transition.chamberBefore),
                                                                                    wording::celsius(work.transition.chamberAfter))});
    if (!work.transition.facts.isEmpty()) out.append({QStringLiteral("What changes"), work.transition.facts.join(QStringLiteral(", "))});
    return out;
}

QString spoolText(const Shop& shop, const SpoolId& id) {
    if (id.isEmpty()) return QStringLiteral("none");
    const auto spool = shop.stock().spools.constFind(id);
    if (spool == shop.stock().spools.constEnd()) return id;
    return QStringLiteral("%1, lot %2").arg(id, spool->lot.isEmpty() ? QStringLiteral("not stated") : spool->lot);
}

Lines materialLines(const Shop& shop, const Catalogue& c, const Changeover& work) {
    Lines out;
    for (const SpoolChange& s : work.transition.spools) {
        const QString position = wording::position(s.role);
        if (s.unload) out.append({QStringLiteral("Unloaded, %1").arg(position), spoolText(shop, s.out)});
        out.append({s.load ? QStringLiteral("Loaded, %1").arg(position) : QStringLiteral("Stays, %1").arg(position),
                    spoolText(shop, s.load ? s.in : s.out)});
    }
    for (const PurgePlan& p : work.transition.purges) {
        if (!p.needed) continue;
        const QString how = p.primeOnly ? QStringLiteral("prime %1").arg(wording::cm3(p.volume))
                                        : QStringLiteral("purge %1 of %2; at most %3 % of it leaves at the end")
                                              .arg(wording::cm3(p.volume), wording::material(c, p.from))
                                              .arg(p.residual * 100.0, 0, 'f', 1);
        out.append({QStringLiteral("Melt zone, %1").arg(wording::position(p.role)), how});
    }
    return out;
}

Lines nozzleLines(const Shop& shop, const Catalogue& c, const Changeover& work, const SessionState* session) {
    Lines out;
    const auto use = [&](const NozzleSerial& serial) {
        if (!session) {
            const auto n = shop.stock().nozzles.constFind(serial);
            return n == shop.stock().nozzles.constEnd() ? QString() : QStringLiteral("use so far %1").arg(wording::runVolume(n->run));
        }
        QStringList said;
        if (session->runBefore.contains(serial)) said.append(QStringLiteral("before %1").arg(wording::runVolume(session->runBefore[serial])));
        if (session->runAfter.contains(serial)) said.append(QStringLiteral("after %1").arg(wording::runVolume(session->runAfter[serial])));
        return said.join(QStringLiteral(", "));
    };
    const auto line = [&](const QString& label, const NozzleSerial& serial) {
        const QString used = use(serial);
        out.append({label, wording::nozzle(c, shop.stock(), serial) + (used.isEmpty() ? QString() : QStringLiteral(" · ") + used)});
    };
    for (const NozzleChange& n : work.transition.nozzles) {
        const QString position = wording::position(n.role);
        if (n.exchange) {
            if (!n.out.isEmpty()) line(QStringLiteral("Removed, %1").arg(position), n.out);
            if (!n.in.isEmpty()) line(QStringLiteral("Mounted, %1").arg(position), n.in);
        } else if (!n.in.isEmpty() || !n.out.isEmpty()) {
            line(QStringLiteral("Stays, %1").arg(position), n.in.isEmpty() ? n.out : n.in);
        }
    }
    return out;
}

QString residueText(const Catalogue& c, const QList<ResidueItem>& items) {
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

QString levelText(CleanOut level) {
    switch (level) {
    case CleanOut::None: return QStringLiteral("none");
    case CleanOut::Advised: return QStringLiteral("advised");
    case CleanOut::Mandatory: return QStringLiteral("mandatory");
    }
    return {};
}

Lines cleanOutLines(const Catalogue& c, const Changeover& work) {
    const Transition& t = work.transition;
    const QString rule = c.fleet.cleanOutRule == CleanOutRule::GoingUp ? QStringLiteral("going-up") : QStringLiteral("strict");
    Lines out;
    out.append({QStringLiteral("Residue before"), residueText(c, t.request.now.residue)});
    out.append({QStringLiteral("Rule"), QStringLiteral("%1, margin %2 K").arg(rule).arg(c.fleet.cleanOutMarginK)});
    out.append({QStringLiteral("Chamber"), QStringLiteral("clean-out %1: %2").arg(levelText(t.chamber.level), t.chamber.reason)});
    out.append({QStringLiteral("Wiper and bin"), QStringLiteral("clearing %1: %2").arg(levelText(t.wiper.level), t.wiper.reason)});
    out.append({QStringLiteral("Part of this changeover"),
                t.cleanOut ? QStringLiteral("yes, the clean-out") : t.clearWiper ? QStringLiteral("wiper and bin only") : QStringLiteral("no clean-out")});
    return out;
}

Lines footOf(const Shop& shop, const Changeover& work) {
    return {{QStringLiteral("Program"), QStringLiteral("Interlude " INTERLUDE_VERSION)},
            {QStringLiteral("Procedure version"), work.libraryVersion.isEmpty() ? QStringLiteral("not stated") : work.libraryVersion},
            {QStringLiteral("Catalogue SHA-256"), work.catalogueHash},
            {QStringLiteral("Ledger position"), QString::number(shop.lastSequence())},
            {QStringLiteral("Ledger hash"), QString::fromLatin1(shop.lastHash().toHex())}};
}

QStringList cautionsOf(const Changeover& work) {
    QStringList out;
    for (const SignalWord w : {SignalWord::Danger, SignalWord::Warning, SignalWord::Caution, SignalWord::Notice})
        for (const PlannedStep& s : work.steps)
            for (const Caution& caution : s.step.cautions) {
                const QString text = QStringLiteral("%1: %2").arg(word(caution.word).toUpper(), caution.text);
                if (caution.word == w && !out.contains(text)) out.append(text);
            }
    return out;
}

void addHistory(Record& r, const Catalogue& c, const SessionState& s) {
    const QTimeZone& zone = c.fleet.zone;
    for (const act::Override& o : s.overrides) r.overrides.append(QStringLiteral("%1: %2").arg(o.rule, overrideText(c, o)));
    for (const Correction& k : s.corrections)
        r.corrections.append(QStringLiteral("event %1, %2: recorded “%3”, corrected to “%4” on %5 by %6, because %7")
                                 .arg(k.what.event).arg(k.what.field, k.what.original, k.what.corrected,
                                                        wording::localTime(k.at, zone), k.who, k.what.reason));
    for (const Interruption& i : s.interruptions) {
        QString text = QStringLiteral("%1 from %2").arg(i.cause, wording::localTime(i.from, zone));
        if (i.to) text += QStringLiteral(" to %1").arg(wording::localTime(*i.to, zone));
        if (!i.who.isEmpty()) text += QStringLiteral(", by %1").arg(i.who);
        if (!i.by.isEmpty()) text += QStringLiteral(", taken up by %1").arg(i.by);
        if (!i.note.isEmpty()) text += QStringLiteral(": %1").arg(i.note);
        QStringList mounted;
        for (auto it = i.mounted.constBegin(); it != i.mounted.constEnd(); ++it) mounted.append(QStringLiteral("%1 %2").arg(it.key(), it.value()));
        if (!mounted.isEmpty()) text += QStringLiteral("; confirmed as mounted: %1").arg(mounted.join(QStringLiteral(", ")));
        r.interruptions.append(text);
    }
    for (const ProblemNote& p : s.problems)
        r.problems.append(QStringLiteral("%1 by %2%3: %4").arg(wording::localTime(p.at, zone), p.who,
                              p.what.step.isEmpty() ? QString() : QStringLiteral(", at step %1").arg(p.what.step), p.what.note));
}

Record common(const Shop& shop, const Catalogue& c, const Changeover& work) {
    Record r;
    r.example = c.fleet.exampleClock.has_value();
    r.shopName = c.fleet.name;
    const Printer* printer = c.printer(work.transition.request.now.id);
    r.printer = printer && printer->name != printer->id ? QStringLiteral("%1 (%2)").arg(printer->name, printer->id)
                                                        : work.transition.request.now.id;
    r.head = headOf(shop, c, work);
    r.materials = materialLines(shop, c, work);
    r.cleanOut = cleanOutLines(c, work);
    r.cautions = cautionsOf(work);
    r.foot = footOf(shop, work);
    r.verificationText = QStringLiteral("interlude ledger %1 %2 %3").arg(c.fleet.id).arg(shop.lastSequence())
                             .arg(QString::fromLatin1(shop.lastHash().toHex()));
    return r;
}

} // namespace

Record recordOf(const Shop& shop, const SessionState& session, Instant printedAt) {
    // The catalogue that the session began with, not today's.
    const CataloguePtr own = shop.catalogueByHash(session.catalogueHash);
    const Catalogue& c = own ? *own : shop.catalogue();
    Record r = common(shop, c, session.changeover);
    r.session = session.number;
    r.revision = session.revision + 1;
    r.title = QStringLiteral("Changeover record %1").arg(session.number);
    r.state = stateText(session);
    r.head.prepend({QStringLiteral("Carried out"),
                    QStringLiteral("%1 to %2%3").arg(wording::localTime(session.started, c.fleet.zone),
                        session.ended ? wording::localTime(*session.ended, c.fleet.zone) : QStringLiteral("(open)"),
                        session.enteredLate ? QStringLiteral(", entered late from paper") : QString())});
    r.head.prepend({QStringLiteral("Begun by"), wording::person(c, session.startedBy)});
    r.head.append({QStringLiteral("Printed"), wording::localTime(printedAt, c.fleet.zone)});
    r.nozzles = nozzleLines(shop, c, session.changeover, &session);
    r.steps = stepLines(c, session);
    r.calibration = calibrationLines(c, session);
    addHistory(r, c, session);
    r.disposition = session.disposition.isEmpty() ? QStringLiteral("none recorded") : session.disposition;
    if (!session.closingNote.isEmpty()) r.disposition += QStringLiteral(" · %1").arg(session.closingNote);
    return r;
}

Record checklistOf(const Shop& shop, const Changeover& changeover, Instant printedAt) {
    const Catalogue& c = shop.catalogue();
    Record r = common(shop, c, changeover);
    r.blank = true;
    r.title = QStringLiteral("Changeover checklist");
    r.state = QStringLiteral("empty, to be entered late");
    r.head.append({QStringLiteral("Printed"), wording::localTime(printedAt, c.fleet.zone)});
    r.nozzles = nozzleLines(shop, c, changeover, nullptr);
    r.steps = blankStepLines(c, changeover);
    return r;
}

} // namespace interlude
