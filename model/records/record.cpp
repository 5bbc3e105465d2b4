#include "model/records/record.h"

#include "model/clock/length.h"
#include "model/records/record_change.h"
#include "model/records/record_entries.h"
#include "model/records/record_overview.h"
#include "model/records/record_steps.h"
#include "model/records/wording.h"
#include "model/shop/present_clock.h"

namespace interlude {

namespace {

QString stateText(const SessionState& s) {
    switch (s.phase) {
    case SessionPhase::Open: return QStringLiteral("open, not finished");
    case SessionPhase::Paused: return QStringLiteral("paused, not finished");
    case SessionPhase::Finished: return QStringLiteral("finished");
    case SessionPhase::Stopped: return QStringLiteral("stopped half way");
    }
    return {};
}

QList<RecordLine> footOf(const Shop& shop, const Changeover& work) {
    return {{QStringLiteral("Program"), QStringLiteral("Interlude " INTERLUDE_VERSION)},
            {QStringLiteral("Procedure version"), work.libraryVersion.isEmpty() ? QStringLiteral("not stated") : work.libraryVersion},
            {QStringLiteral("Catalogue SHA-256"), work.catalogueHash},
            {QStringLiteral("Ledger position"), QString::number(shop.lastSequence())},
            {QStringLiteral("Ledger hash"), QString::fromLatin1(shop.lastHash().toHex())}};
}

/// Temperatures that were read outside the confirmation of a step.
QStringList readingsBeside(const Catalogue& c, const SessionState& s) {
    QStringList out;
    for (const SensorReading& reading : s.readings) {
        const bool ofStep = std::any_of(s.steps.begin(), s.steps.end(), [&](const StepProgress& p) { return p.event == reading.event; });
        if (ofStep) continue;
        QString text = QStringLiteral("%1 %2 %3 by %4").arg(wording::dayTime(reading.at, s.started, c.fleet.zone),
                                                            wording::sensor(reading.sensor), wording::celsius(reading.value), reading.who);
        if (!reading.instrument.isEmpty()) text += QStringLiteral(" with %1").arg(reading.instrument);
        out.append(text);
    }
    return out;
}

/// Everyone whose initials stand on the record, once, with their names.
QStringList peopleOf(const Catalogue& c, const SessionState& s) {
    QStringList initials{s.startedBy};
    for (const act::Override& o : s.overrides) initials += o.approver;
    for (const PlannedStep& planned : s.changeover.steps) {
        const StepProgress& p = s.progress(planned.step.id);
        initials += p.who;
        if (p.skipped) initials += p.skipped->approver;
        for (const act::Override& o : p.confirmed.overrides) initials += o.approver;
    }
    for (const Interruption& i : s.interruptions) initials << i.who << i.by;
    for (const Correction& k : s.corrections) initials += k.who;
    for (const ProblemNote& p : s.problems) initials += p.who;
    for (const TakenBackStep& t : s.takenBack) initials += t.who;
    for (const SensorReading& each : s.readings) initials += each.who;
    initials += s.closedBy;
    initials.removeDuplicates();
    initials.removeAll(QString());
    QStringList out;
    for (const QString& each : std::as_const(initials)) out += wording::person(c, each);
    return out;
}

QString titleOf(const SessionState& s, const StepId& id) {
    const PlannedStep* step = s.changeover.step(id);
    return step ? step->step.title : id;
}

QString minutesText(const SessionState& s) {
    const Changeover& work = s.changeover;
    QString text = QStringLiteral("planned %1 with the printer standing and %2 before")
                       .arg(lengthText(work.internal + work.partRemoval), lengthText(work.preparation));
    if (s.ended) text += QStringLiteral("; actual %1").arg(wording::elapsed(inPresentClock(s, s.started, s.firstEvent), *s.ended));
    return text;
}

void addHistory(Record& r, const Catalogue& c, const SessionState& s) {
    const QTimeZone& zone = c.fleet.zone;
    r.readings = readingsBeside(c, s);
    for (const Finding& f : s.changeover.transition.verdicts)
        if (f.severity == Severity::Warning) r.warnings.append(QStringLiteral("%1: %2").arg(f.rule, sentence(f)));
    r.people = peopleOf(c, s);
    for (const act::Override& o : s.overrides) r.overrides.append(QStringLiteral("%1: %2").arg(o.rule, overrideText(c, o, s.startedBy)));
    // What stands in no step's row: corrections of the session's own events and of confirmations taken back since.
    QList<qint64> rows;
    for (const StepProgress& p : s.steps) rows << p.event << p.startEvent;
    for (const Correction& k : s.corrections)
        if (!rows.contains(k.what.event))
            r.corrections.append({QStringLiteral("event %1, %2").arg(k.what.event).arg(k.what.field), k.what.original, {},
                                  k.what.field, k.what.event, {correctionOf(k, c)}});
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
    for (const ProblemNote& p : s.problems) {
        QString text = QStringLiteral("%1 by %2%3: %4").arg(wording::localTime(p.at, zone), p.who,
                                                            p.what.step.isEmpty() ? QString() : QStringLiteral(", at step \"%1\"").arg(titleOf(s, p.what.step)),
                                                            p.what.note);
        if (p.what.stop) text += QStringLiteral("; the session was stopped here");
        QStringList shown;
        for (const QString& sha256 : p.what.photos) {
            r.photos.append({static_cast<int>(r.problems.size()) + 1, sha256});
            shown.append(QStringLiteral("photo %1").arg(r.photos.size()));
        }
        if (!shown.isEmpty()) text += QStringLiteral(" (%1)").arg(shown.join(QStringLiteral(", ")));
        r.problems.append(text);
    }
}

Record common(const Shop& shop, const Catalogue& c, const Changeover& work, const SessionState* session) {
    Record r;
    r.example = c.fleet.exampleClock.has_value();
    r.shopName = c.fleet.name;
    const Printer* printer = c.printer(work.transition.request.now.id);
    r.printer = printer && printer->name != printer->id ? QStringLiteral("%1 (%2)").arg(printer->name, printer->id)
                                                        : work.transition.request.now.id;
    // A record speaks of the job as it was when the work began, a checklist as it is.
    const Job* job = session ? (session->jobThen ? &*session->jobThen : nullptr) : shop.job(work.transition.request.job);
    r.head = headOf(job, c, work, session);
    r.materials = materialLines(shop, c, work, session);
    r.cleanOut = cleanOutLines(c, work, session);
    r.cautions = cautionsOf(work);
    r.cautionsByStep = cautionsByStep(work);
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
    Record r = common(shop, c, session.changeover, &session);
    r.session = session.number;
    r.revision = session.nextRevision();
    r.draft = session.revision != r.revision;
    r.title = QStringLiteral("Changeover record %1").arg(session.number);
    r.state = stateText(session);
    r.standing = standingOf(c, session);
    r.instruments = instrumentsOf(c, session);
    r.head.prepend({QStringLiteral("Carried out"),
                    QStringLiteral("%1 to %2%3").arg(wording::localTime(session.started, c.fleet.zone),
                        session.ended ? wording::localTime(*session.ended, c.fleet.zone) : QStringLiteral("(not closed)"),
                        session.enteredLate ? QStringLiteral(", entered late from paper") : QString())});
    r.head.insert(1, {QStringLiteral("Minutes"), minutesText(session)});
    r.finished = session.phase == SessionPhase::Finished;
    r.head.append({QStringLiteral("Unusual"), unusualOf(session)});
    r.head.prepend({QStringLiteral("Begun by"), wording::person(c, session.startedBy)});
    r.foot.append({QStringLiteral("Printed"), wording::localTime(printedAt, c.fleet.zone)});
    r.nozzles = nozzleLines(shop, c, session.changeover, &session);
    r.steps = stepLines(c, session);
    r.calibration = calibrationLines(c, session);
    addHistory(r, c, session);
    r.disposition = session.disposition.isEmpty() ? QStringLiteral("none recorded") : session.disposition;
    if (!session.closingNote.isEmpty()) r.disposition += QStringLiteral(" · %1").arg(session.closingNote);
    if (session.ended && !session.closedBy.isEmpty())
        r.disposition += QStringLiteral(" · %1, %2").arg(wording::person(c, session.closedBy), wording::localTime(*session.ended, c.fleet.zone));
    return r;
}

Record checklistOf(const Shop& shop, const Changeover& changeover, Instant printedAt) {
    const Catalogue& c = shop.catalogue();
    Record r = common(shop, c, changeover, nullptr);
    r.blank = true;
    r.title = QStringLiteral("Changeover checklist");
    r.state = QStringLiteral("empty, to be entered late");
    r.foot.append({QStringLiteral("Printed"), wording::localTime(printedAt, c.fleet.zone)});
    r.nozzles = nozzleLines(shop, c, changeover, nullptr);
    r.steps = blankStepLines(changeover);
    return r;
}

} // namespace interlude
