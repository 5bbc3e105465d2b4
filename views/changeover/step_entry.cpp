#include "views/changeover/step_entry.h"

#include "views/words/words.h"

#include "model/session/evidence.h"

#include <QCoreApplication>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("StepEntry", text);
}

} // namespace

MeasuredNow measuredNow(const SessionState& session, const StepTemplate& step, Instant now) {
    MeasuredNow out;
    for (const SensorReading& r : allReadings(session))
        if (r.sensor == step.measuredAt && (!out.at || r.at >= *out.at)) {
            out.value = r.value;
            out.at = r.at;
        }
    out.fresh = out.at && !needsFreshReading(session, step.id, now);
    return out;
}

NozzleSerial nozzleToState(const Shop& shop, const PlannedStep& planned, const QStringList& scanned) {
    const StepTemplate& s = planned.step;
    if (s.effect != Effect::MountNozzlePart && s.effect != Effect::MountNozzleSupport) return {};
    for (qsizetype i = 0; i < s.confirm.scans.size(); ++i) {
        const ScanTarget t = s.confirm.scans.at(i).target;
        if (t != ScanTarget::NozzleInPart && t != ScanTarget::NozzleInSupport) continue;
        const QString serial = scanned.value(i).isEmpty() ? planned.expectedScans.value(i) : scanned.value(i);
        const auto nozzle = shop.stock().nozzles.constFind(serial);
        if (nozzle != shop.stock().nozzles.cend() && !nozzle->run.known) return serial;
    }
    return {};
}

StepEntry::StepEntry(qint64 session, const PlannedStep& planned)
    : m_session(session), m_step(planned.step), m_expected(planned.expectedScans) {
    const Confirmation& c = m_step.confirm;
    while (m_expected.size() < c.scans.size()) m_expected.append(QString());
    m_scans.resize(static_cast<size_t>(c.scans.size()));
    m_answers.resize(static_cast<size_t>(c.answers.size()));
    for (const ReadingWanted& r : c.readings) m_readings.emplace_back(static_cast<size_t>(std::max(1, r.times)));
}

QStringList StepEntry::scanned() const {
    QStringList out;
    for (const auto& s : m_scans) out.append(s ? s->value : QString());
    return out;
}

const std::optional<act::ReadingDone>& StepEntry::readingAt(int index, int time) const {
    return m_readings.at(static_cast<size_t>(index)).at(static_cast<size_t>(time));
}

bool StepEntry::outside(int index, int time) const {
    const auto& done = readingAt(index, time);
    if (!done) return false;
    const ReadingWanted& w = m_step.confirm.readings.at(index);
    const auto thousandths = [](double v) { return std::llround(v * 1000.0); };
    return (w.min && done->thousandths < thousandths(*w.min)) || (w.max && done->thousandths > thousandths(*w.max));
}

QList<Missing> StepEntry::missing(const MeasuredNow& measured) const {
    QList<Missing> out;
    if (m_step.onlyBelow) {
        const QString sensor = words::sensor(m_step.measuredAt).toLower();
        if (!measured.fresh || !measured.value)
            out.append({Missing::What::Measure, 0, 0, tr("measure the %1").arg(sensor)});
        else if (*measured.value > *m_step.onlyBelow)
            out.append({Missing::What::Measure, 0, 0,
                        tr("%1 at or below %2").arg(sensor, words::celsius(*m_step.onlyBelow))});
    }
    for (int i = 0; i < static_cast<int>(m_scans.size()); ++i)
        if (!scanAt(i)) {
            const QString what = m_expected.at(i).isEmpty()
                                     ? words::scanCaption(m_step.confirm.scans.at(i).target).toLower()
                                     : m_expected.at(i);
            out.append({Missing::What::Scan, i, 0, tr("scan %1").arg(what)});
        }
    if (!m_useOf.isEmpty() && !m_use)
        out.append({Missing::What::Use, 0, 0, tr("state the use so far of %1").arg(m_useOf)});
    for (int i = 0; i < static_cast<int>(m_answers.size()); ++i) {
        const AnswerWanted& w = m_step.confirm.answers.at(i);
        if (!answerAt(i))
            out.append({Missing::What::Answer, i, 0, tr("answer “%1”, yes or no").arg(w.question)});
        else if (w.mustBe && *w.mustBe != *answerAt(i))
            out.append({Missing::What::Answer, i, 0,
                        (*w.mustBe ? tr("“%1” must be yes") : tr("“%1” must be no")).arg(w.question)});
    }
    for (int i = 0; i < static_cast<int>(m_readings.size()); ++i)
        for (int t = 0; t < static_cast<int>(m_readings.at(static_cast<size_t>(i)).size()); ++t)
            if (!readingAt(i, t))
                out.append({Missing::What::Reading, i, t, tr("read %1").arg(m_step.confirm.readings.at(i).name)});
    return out;
}

QString StepEntry::confirmText(const MeasuredNow& measured) const {
    const QList<Missing> all = missing(measured);
    if (!all.isEmpty()) return tr("Done: %1 first").arg(all.first().text);
    for (int i = 0; i < static_cast<int>(m_readings.size()); ++i)
        for (int t = 0; t < static_cast<int>(m_readings.at(static_cast<size_t>(i)).size()); ++t)
            if (outside(i, t)) return tr("Done: %1 outside its limits").arg(m_step.confirm.readings.at(i).name);
    return tr("Done");
}

void StepEntry::scan(int index, const QString& value, bool typed) {
    m_scans.at(static_cast<size_t>(index)) = act::ScanDone{value, typed};
}

void StepEntry::answer(int index, bool yes) {
    m_answers.at(static_cast<size_t>(index)) = yes;
}

void StepEntry::read(int index, int time, double value, Instant at) {
    const ReadingWanted& w = m_step.confirm.readings.at(index);
    m_readings.at(static_cast<size_t>(index)).at(static_cast<size_t>(time)) =
        act::ReadingDone{w.name, std::llround(value * 1000.0), w.unit, w.instrument, at};
}

act::StepConfirmed StepEntry::confirmation(const MeasuredNow& measured) const {
    act::StepConfirmed out;
    out.session = m_session;
    out.step = m_step.id;
    for (const auto& s : m_scans)
        if (s) out.scans.append(*s);
    for (const auto& a : m_answers)
        if (a) out.answers.append(act::AnswerDone{*a});
    for (const auto& readings : m_readings)
        for (const auto& r : readings)
            if (r) out.readings.append(*r);
    if (m_step.onlyBelow) {
        out.measured = measured.value;
        out.measuredAt = measured.at;
    }
    out.useSoFar = m_use;
    return out;
}

} // namespace interlude
