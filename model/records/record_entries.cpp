#include "model/records/record_entries.h"

#include "model/records/wording.h"

namespace interlude {

namespace {

/// With the date of its calibration, and whether that had run out when it was used.
QString instrumentText(const Catalogue& c, const QString& id, Instant used) {
    if (id.isEmpty()) return {};
    const Instrument* i = c.instrument(id);
    if (!i) return QStringLiteral("with %1, unknown instrument").arg(id);
    if (!i->calibrated.isValid()) return QStringLiteral("with %1, calibration not stated").arg(id);
    const QString text = QStringLiteral("with %1, calibrated %2").arg(id, i->calibrated.toString(Qt::ISODate));
    const bool overdue = i->due.isValid() && toZone(used, c.fleet.zone).date() > i->due;
    return overdue ? QStringLiteral("%1, OVERDUE since %2").arg(text, i->due.toString(Qt::ISODate)) : text;
}

const ReadingWanted* wantedFor(const PlannedStep& planned, const QString& name) {
    for (const ReadingWanted& wanted : planned.step.confirm.readings)
        if (wanted.name == name) return &wanted;
    return nullptr;
}

/// Its calibration stands in the record's list of instruments; what is wrong with it is said here, too.
QString instrumentBrief(const Catalogue& c, const QString& id, Instant used) {
    const Instrument* i = c.instrument(id);
    if (!i || !i->calibrated.isValid()) return instrumentText(c, id, used);
    const bool overdue = i->due.isValid() && toZone(used, c.fleet.zone).date() > i->due;
    return overdue ? QStringLiteral("with %1, calibration OVERDUE").arg(id) : QStringLiteral("with %1").arg(id);
}

QString said(const QStringList& parts) {
    QStringList out = parts;
    out.removeAll(QString());
    return out.join(QStringLiteral("; "));
}

RecordEntry scanEntry(const PlannedStep& planned, qsizetype index, const act::ScanDone& scan) {
    const auto& wanted = planned.step.confirm.scans;
    const QString what = index < wanted.size() ? wording::scanned(wanted[index].target) : QStringLiteral("scan");
    const QString expected = planned.expectedScans.value(index);
    const bool other = !expected.isEmpty() && expected != scan.value;
    const QString remark = said({scan.typed ? QStringLiteral("typed") : QString(),
                                 other ? QStringLiteral("expected %1").arg(expected) : QString()});
    return {what, scan.value, remark, what, 0, {}, RecordEntry::Scan, remark, false};
}

RecordEntry measuredEntry(const Catalogue& c, const PlannedStep& planned, const act::StepConfirmed& done) {
    const QString sensor = wording::sensor(planned.step.measuredAt);
    QStringList remark;
    if (done.measuredAt) remark += QStringLiteral("at %1").arg(wording::clockTime(*done.measuredAt, c.fleet.zone));
    if (planned.step.onlyBelow) remark += QStringLiteral("limit %1").arg(wording::celsius(*planned.step.onlyBelow));
    if (planned.step.onlyBelow && *done.measured > *planned.step.onlyBelow) remark += QStringLiteral("ABOVE ITS LIMIT");
    QStringList brief;
    if (planned.step.onlyBelow) brief += QStringLiteral("limit %1").arg(wording::celsius(*planned.step.onlyBelow));
    if (done.measuredAt) brief += wording::clockTime(*done.measuredAt, c.fleet.zone);
    if (planned.step.onlyBelow && *done.measured > *planned.step.onlyBelow) brief += QStringLiteral("ABOVE ITS LIMIT");
    const QString field = QStringLiteral("%1 measured").arg(sensor);
    return {field, wording::celsius(*done.measured), said(remark), field, 0, {}, RecordEntry::Reading, said(brief), false};
}

/// A field names one entry only: the second reading of a name is "name 2".
void makeUnique(QList<RecordEntry>& entries) {
    QMap<QString, int> times;
    for (RecordEntry& e : entries)
        if (const int n = ++times[e.field]; n > 1) {
            e.field += QStringLiteral(" %1").arg(n);
            e.label += QStringLiteral(" %1").arg(n);
        }
}

} // namespace

RecordEntry readingEntry(const Catalogue& catalogue, const PlannedStep& planned, const act::ReadingDone& r) {
    QStringList remark;
    if (const ReadingWanted* wanted = wantedFor(planned, r.name)) {
        remark += QStringLiteral("limits %1").arg(wording::limits(*wanted));
        const double value = static_cast<double>(r.thousandths) / 1000.0;
        // Limits are stated to a thousandth at most; half of that absorbs the rounding of their decimal form.
        if ((wanted->min && value < *wanted->min - 0.0005) || (wanted->max && value > *wanted->max + 0.0005))
            remark += QStringLiteral("OUTSIDE ITS LIMITS");
    }
    const QStringList brief = remark + QStringList(instrumentBrief(catalogue, r.instrument, r.at));
    remark += instrumentText(catalogue, r.instrument, r.at);
    const QString unit = r.unit.isEmpty() ? QString() : QLatin1Char(' ') + r.unit;
    return {r.name, wording::thousandths(r.thousandths) + unit, said(remark), r.name, 0, {}, RecordEntry::Reading, said(brief), false};
}

QList<RecordEntry> entriesOf(const Catalogue& catalogue, const PlannedStep& planned, const StepProgress& progress) {
    const act::StepConfirmed& done = progress.confirmed;
    QList<RecordEntry> out;
    for (qsizetype i = 0; i < done.scans.size(); ++i) out += scanEntry(planned, i, done.scans[i]);
    const auto& questions = planned.step.confirm.answers;
    for (qsizetype i = 0; i < done.answers.size(); ++i) {
        const QString question = i < questions.size() ? questions[i].question : QStringLiteral("answer");
        const bool asRequired = i < questions.size() && questions[i].mustBe == done.answers[i].yes;
        out += {question, done.answers[i].yes ? QStringLiteral("yes") : QStringLiteral("no"), {}, question, 0, {},
                RecordEntry::Answer, {}, asRequired};
    }
    for (const act::ReadingDone& r : done.readings) out += readingEntry(catalogue, planned, r);
    if (done.measured) out += measuredEntry(catalogue, planned, done);
    if (done.useSoFar)
        out += {QStringLiteral("use so far"), wording::runVolume(*done.useSoFar), {}, QStringLiteral("use so far"), 0, {}};
    if (!done.note.isEmpty()) out += {QStringLiteral("note"), done.note, {}, QStringLiteral("note"), 0, {}};
    makeUnique(out);
    for (RecordEntry& e : out) e.event = progress.event;
    return out;
}

RecordCorrection correctionOf(const Correction& c, const Catalogue& catalogue) {
    return {c.what.corrected, c.what.reason, c.who, wording::localTime(c.at, catalogue.fleet.zone)};
}

void addCorrections(QList<RecordEntry>& entries, const QList<Correction>& corrections, const QList<qint64>& events,
                    const QList<RecordEntry>& row, const Catalogue& catalogue) {
    for (const Correction& c : corrections) {
        if (!events.contains(c.what.event)) continue;
        const auto named = [&](const RecordEntry& e) { return e.field == c.what.field; };
        auto entry = std::find_if(entries.begin(), entries.end(), named);
        if (entry == entries.end()) {
            const auto own = std::find_if(row.begin(), row.end(), named);
            RecordEntry added = own != row.end() ? *own : RecordEntry{c.what.field, c.what.original, {}, c.what.field, 0, {}};
            added.event = c.what.event;
            entries.append(added);
            entry = entries.end() - 1;
        }
        entry->corrections.append(correctionOf(c, catalogue));
    }
}

QList<Correctable> correctablesOf(const Record& record) {
    QList<Correctable> out;
    for (auto step = record.steps.crbegin(); step != record.steps.crend(); ++step) {
        if (step->event == 0) continue;
        const auto add = [&](const RecordEntry& e) {
            out.append({e.event, step->title, e.label, e.field, e.corrections.isEmpty() ? e.value : e.corrections.last().corrected});
        };
        QStringList fields;
        for (const RecordEntry& e : step->entries) {
            add(e);
            fields += e.field;
        }
        for (const auto& [field, value] : {std::pair(QStringLiteral("begun"), step->begun), std::pair(QStringLiteral("ended"), step->ended),
                                           std::pair(QStringLiteral("who"), step->who), std::pair(QStringLiteral("note"), QString())})
            if (!fields.contains(field)) add({field, value, {}, field, step->event, {}});
    }
    return out;
}

} // namespace interlude
