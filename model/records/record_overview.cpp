#include "model/records/record_overview.h"

#include "model/records/wording.h"

namespace interlude {

static QString listed(const QList<int>& numbers) {
    QStringList out;
    for (const int n : numbers) out += QString::number(n);
    return out.join(QStringLiteral(", "));
}

QString standingOf(const Catalogue& c, const SessionState& s) {
    const auto settled = std::count_if(s.changeover.steps.begin(), s.changeover.steps.end(),
                                       [&](const PlannedStep& p) { return s.settled(p.step.id); });
    const QString steps = QStringLiteral("%1 of %2 steps settled").arg(settled).arg(s.changeover.steps.size());
    QStringList out;
    if (s.isOpen())
        out += QStringLiteral("NOT FINISHED when this was printed: %1").arg(steps);
    else if (s.phase == SessionPhase::Stopped)
        out += QStringLiteral("NOT FINISHED: stopped half way on %1, %2. Reason: %3")
                   .arg(s.ended ? wording::localTime(*s.ended, c.fleet.zone) : QString(), steps, s.closingNote);
    if (s.enteredLate) out += QStringLiteral("ENTERED LATE, from paper");
    return out.join(QStringLiteral(". "));
}

QString unusualOf(const SessionState& s) {
    qsizetype overrides = s.overrides.size(), skipped = 0, late = 0, typed = 0, early = 0;
    for (const PlannedStep& planned : s.changeover.steps) // the note of a wait says how it was known to be over
        early += !planned.step.handsOn() && !s.progress(planned.step.id).confirmed.note.isEmpty() ? 1 : 0;
    for (const StepProgress& p : s.steps) {
        overrides += p.confirmed.overrides.size();
        skipped += p.skipped ? 1 : 0;
        late += p.enteredLate ? 1 : 0;
        typed += std::count_if(p.confirmed.scans.begin(), p.confirmed.scans.end(), [](const act::ScanDone& d) { return d.typed; });
    }
    QStringList out;
    const std::pair<const char*, qsizetype> counts[] = {{"overrides", overrides}, {"skipped steps", skipped}, {"taken back", s.takenBack.size()},
                                                        {"corrections", s.corrections.size()}, {"entered late", late}, {"ids typed", typed}, {"waits ended before their prediction", early},
                                                        {"problems", s.problems.size()}, {"interruptions", s.interruptions.size()}};
    for (const auto& [what, n] : counts)
        if (n > 0) out += QStringLiteral("%1 %2").arg(QLatin1String(what)).arg(n);
    return out.isEmpty() ? QStringLiteral("nothing") : out.join(QStringLiteral(", "));
}

QList<RecordCaution> cautionsByStep(const Changeover& work) {
    QList<RecordCaution> out;
    for (const SignalWord w : {SignalWord::Danger, SignalWord::Warning, SignalWord::Caution, SignalWord::Notice}) {
        QMap<QString, QList<int>> steps;
        for (qsizetype i = 0; i < work.steps.size(); ++i)
            for (const Caution& caution : work.steps[i].step.cautions) {
                QList<int>& numbers = steps[caution.subject];
                const int number = static_cast<int>(i) + 1;
                if (caution.word == w && !numbers.contains(number)) numbers += number;
            }
        for (auto it = steps.constBegin(); it != steps.constEnd(); ++it)
            if (!it->isEmpty())
                out += RecordCaution{word(w).toUpper(), QString(it.key()).replace(QLatin1Char('-'), QLatin1Char(' ')), listed(*it)};
    }
    return out;
}

QList<RecordLine> instrumentsOf(const Catalogue& c, const SessionState& s) {
    QStringList ids;
    for (const PlannedStep& planned : s.changeover.steps)
        for (const act::ReadingDone& r : s.progress(planned.step.id).confirmed.readings) ids += r.instrument;
    for (const SensorReading& r : s.readings) ids += r.instrument;
    ids.removeAll(QString());
    ids.removeDuplicates();
    QList<RecordLine> out;
    for (const QString& id : std::as_const(ids)) {
        const Instrument* i = c.instrument(id);
        QStringList said{i ? i->name : QStringLiteral("not in the catalogue")};
        if (i) said += i->calibrated.isValid() ? QStringLiteral("calibrated %1").arg(i->calibrated.toString(Qt::ISODate))
                                               : QStringLiteral("calibration not stated");
        if (i && i->due.isValid()) said += QStringLiteral("due again %1").arg(i->due.toString(Qt::ISODate));
        out += RecordLine{id, said.join(QStringLiteral(", "))};
    }
    return out;
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

} // namespace interlude
