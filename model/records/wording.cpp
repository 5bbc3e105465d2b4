#include "model/records/wording.h"

#include "model/changeover/crew_layout.h"
#include "model/clock/length.h"

#include <algorithm>
#include <cmath>

namespace interlude::wording {

namespace {

QString number(double v, int decimals) {
    QString s = QString::number(v, 'f', decimals);
    if (s.contains(QLatin1Char('.'))) {
        while (s.endsWith(QLatin1Char('0'))) s.chop(1);
        if (s.endsWith(QLatin1Char('.'))) s.chop(1);
    }
    if (s == QStringLiteral("-0")) s = QStringLiteral("0");
    return s.replace(QLatin1Char('-'), QChar(0x2212));
}

/// "+02" of a moment whose hour the clock shows twice, in the night in which it goes back; else nothing.
QString offsetOfTwice(Instant t, const QTimeZone& zone) {
    if (!zone.hasTransitions()) return {};
    const QDateTime utc = toUtc(t);
    const auto setBack = [&](const QTimeZone::OffsetData& change) {
        return change.atUtc.isValid() ? zone.offsetFromUtc(change.atUtc.addMSecs(-1)) - change.offsetFromUtc : 0;
    };
    const auto last = zone.previousTransition(utc.addMSecs(1)), next = zone.nextTransition(utc);
    const bool second = setBack(last) > 0 && utc < last.atUtc.addSecs(setBack(last));
    const bool first = setBack(next) > 0 && utc >= next.atUtc.addSecs(-setBack(next));
    if (!first && !second) return {};
    const int minutes = zone.offsetFromUtc(utc) / 60;
    QString text = QStringLiteral("%1%2").arg(minutes < 0 ? QChar(0x2212) : QLatin1Char('+')).arg(std::abs(minutes) / 60, 2, 10, QLatin1Char('0'));
    if (minutes % 60 != 0) text += QStringLiteral(":%1").arg(std::abs(minutes) % 60, 2, 10, QLatin1Char('0'));
    return text;
}

} // namespace

QString celsius(Temperature t) {
    return number(t.celsius(), 1) + QStringLiteral(" °C");
}

QString cm3(Volume v) {
    return number(v.cm3(), std::abs(v.cm3()) < 100 ? 1 : 0) + QStringLiteral(" cm³");
}

QString elapsed(Instant from, Instant to) {
    return lengthText(std::chrono::ceil<Minutes>(to - from));
}

QString localTime(Instant t, const QTimeZone& zone) {
    return toZone(t, zone).toString(QStringLiteral("yyyy-MM-dd HH:mm")) + offsetOfTwice(t, zone);
}

QString clockTime(Instant t, const QTimeZone& zone) {
    return toZone(t, zone).toString(QStringLiteral("HH:mm")) + offsetOfTwice(t, zone);
}

QString dayTime(Instant t, Instant start, const QTimeZone& zone) {
    const QDateTime then = toZone(t, zone);
    return then.toString(then.date() == toZone(start, zone).date() ? QStringLiteral("HH:mm") : QStringLiteral("ddd HH:mm")) + offsetOfTwice(t, zone);
}

QString scanned(ScanTarget t) {
    switch (t) {
    case ScanTarget::Printer: return QStringLiteral("printer");
    case ScanTarget::NozzleOutPart: return QStringLiteral("part nozzle removed");
    case ScanTarget::NozzleOutSupport: return QStringLiteral("support nozzle removed");
    case ScanTarget::NozzleInPart: return QStringLiteral("part nozzle mounted");
    case ScanTarget::NozzleInSupport: return QStringLiteral("support nozzle mounted");
    case ScanTarget::SpoolOutPart: return QStringLiteral("part spool unloaded");
    case ScanTarget::SpoolOutSupport: return QStringLiteral("support spool unloaded");
    case ScanTarget::SpoolInPart: return QStringLiteral("part spool loaded");
    case ScanTarget::SpoolInSupport: return QStringLiteral("support spool loaded");
    case ScanTarget::PlatformCover: return QStringLiteral("platform cover");
    case ScanTarget::Place: return QStringLiteral("place");
    }
    return {};
}

QString runVolume(const RunVolume& v) {
    if (!v.known) return QStringLiteral("no history");
    const QString total = cm3(v.plain + v.abrasive);
    return v.abrasive.mm3() == 0 ? total : QStringLiteral("%1 (%2 of it abrasive)").arg(total, cm3(v.abrasive));
}

QString thousandths(qint64 value) {
    return number(static_cast<double>(value) / 1000.0, 3);
}

QString material(const Catalogue& c, const MaterialId& id) {
    if (id.isEmpty()) return QStringLiteral("none");
    const Material* m = c.material(id);
    return m ? QStringLiteral("%1 (%2)").arg(m->polymer, id) : id;
}

QString nozzle(const Catalogue& c, const Stock& s, const NozzleSerial& serial) {
    if (serial.isEmpty()) return QStringLiteral("none");
    const auto unit = s.nozzles.constFind(serial);
    const NozzleType* type = unit == s.nozzles.constEnd() ? nullptr : c.nozzleType(unit->type);
    if (!type) return serial;
    return QStringLiteral("%1 · %2 mm %3").arg(serial, number(type->orifice.mm(), 2), type->alloy).trimmed();
}

QString position(Role role) {
    return role == Role::Part ? QStringLiteral("part") : QStringLiteral("support");
}

QString person(const Catalogue& c, const QString& initials) {
    const Person* p = c.person(initials);
    return p && p->name != initials ? QStringLiteral("%1 (%2)").arg(p->name, initials) : initials;
}

QString limits(const ReadingWanted& r) {
    const QString unit = r.unit.isEmpty() ? QString() : QLatin1Char(' ') + r.unit;
    if (r.min && r.max) return QStringLiteral("%1 to %2%3").arg(number(*r.min, 3), number(*r.max, 3), unit);
    if (r.max) return QStringLiteral("at most %1%2").arg(number(*r.max, 3), unit);
    if (r.min) return QStringLiteral("at least %1%2").arg(number(*r.min, 3), unit);
    return QStringLiteral("no limits%1").arg(r.unit.isEmpty() ? QString() : QStringLiteral(", in %1").arg(r.unit));
}

QString sensor(Sensor s) {
    switch (s) {
    case Sensor::Chamber: return QStringLiteral("chamber");
    case Sensor::Head: return QStringLiteral("part head");
    case Sensor::SupportHead: return QStringLiteral("support head");
    case Sensor::Platform: return QStringLiteral("platform");
    }
    return {};
}

QString severity(Severity s) {
    switch (s) {
    case Severity::Notice: return QStringLiteral("notice");
    case Severity::Advice: return QStringLiteral("advised");
    case Severity::Warning: return QStringLiteral("warning");
    case Severity::Mandatory: return QStringLiteral("mandatory");
    case Severity::Refusal: return QStringLiteral("refused");
    }
    return {};
}

QString twoPeople(const Changeover& changeover, const Catalogue& catalogue) {
    const auto two = layOutFor(changeover, catalogue, 2);
    if (!two || two->length >= changeover.internal) return {};
    // The whole chain would be half the list of steps: what takes longest on it is what is worth a thought.
    QList<const PlannedStep*> chain;
    for (const StepId& id : two->chain)
        if (const PlannedStep* s = changeover.step(id); s && s->planned > Minutes(0)) chain.append(s);
    std::stable_sort(chain.begin(), chain.end(), [](const PlannedStep* a, const PlannedStep* b) { return a->planned > b->planned; });
    QStringList longest;
    for (const PlannedStep* s : chain)
        if (longest.size() < 4) longest.append(QStringLiteral("%1 (%2)").arg(s->step.title, lengthText(s->planned)));
    return QStringLiteral("Two people side by side, where nothing puts the steps in order: %1 instead of %2; it hangs on %3. Whether "
                          "two may work at this printer at once, the manual and the shop's rules say.")
        .arg(lengthText(two->length), lengthText(changeover.internal), longest.join(QStringLiteral(", ")));
}

} // namespace interlude::wording
