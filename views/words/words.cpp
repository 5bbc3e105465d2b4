#include "views/words/words.h"

#include <QCoreApplication>
#include <QRegularExpression>

namespace interlude::words {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("words", text);
}

qint64 secondsUp(Milliseconds d) {
    return std::chrono::ceil<Seconds>(d).count();
}

QString digits(qint64 seconds) {
    const qint64 h = seconds / 3600, m = seconds / 60 % 60, s = seconds % 60;
    if (h > 0)
        return QStringLiteral("%1:%2:%3").arg(h).arg(m, 2, 10, QLatin1Char('0')).arg(s, 2, 10, QLatin1Char('0'));
    return QStringLiteral("%1:%2").arg(m, 2, 10, QLatin1Char('0')).arg(s, 2, 10, QLatin1Char('0'));
}

} // namespace

QString countdown(Milliseconds left) {
    if (left > Milliseconds(0)) return digits(secondsUp(left));
    const qint64 over = std::chrono::floor<Seconds>(-left).count();
    return over == 0 ? digits(0) : QStringLiteral("+") + digits(over);
}

QString countdownSpoken(Milliseconds left) {
    const bool over = left <= Milliseconds(0);
    const qint64 total = over ? std::chrono::floor<Seconds>(-left).count() : secondsUp(left);
    const QString time = tr("%1 minutes %2 seconds").arg(total / 60).arg(total % 60);
    return over ? tr("over since %1").arg(time) : tr("%1 left").arg(time);
}

QString minutes(Minutes m) {
    if (m.count() < 60) return tr("%1 min").arg(m.count());
    return tr("%1 h %2 min").arg(m.count() / 60).arg(m.count() % 60, 2, 10, QLatin1Char('0'));
}

QString stretch(Milliseconds d) {
    if (d < Minutes(1)) return tr("%1 s").arg(std::max<qint64>(0, secondsUp(d)));
    return minutes(std::chrono::ceil<Minutes>(d));
}

QString number(double value) {
    QString text = QString::number(value, 'f', 3);
    while (text.endsWith(QLatin1Char('0'))) text.chop(1);
    if (text.endsWith(QLatin1Char('.'))) text.chop(1);
    if (text == QStringLiteral("-0")) return QStringLiteral("0");
    return text.replace(QLatin1Char('-'), QChar(0x2212));
}

QString celsius(Temperature t) {
    return tr("%1 °C").arg(number(std::round(t.celsius() * 10.0) / 10.0));
}

QString cm3(Volume v) {
    const double value = v.cm3();
    return tr("%1 cm³").arg(number(value < 10.0 ? std::round(value * 10.0) / 10.0 : std::round(value)));
}

QString mm(Length l) {
    return tr("%1 mm").arg(number(l.mm()));
}

QString grams(Mass m) {
    return tr("%1 g").arg(number(std::round(m.grams())));
}

QString runVolume(const RunVolume& run) {
    if (!run.known) return tr("no history");
    if (run.abrasive.mm3() == 0) return cm3(run.plain);
    return tr("%1 plain, %2 abrasive").arg(cm3(run.plain), cm3(run.abrasive));
}

QString limits(const ReadingWanted& w) {
    const QString unit = w.unit.isEmpty() ? QString() : QStringLiteral(" ") + w.unit;
    if (w.min && w.max) return tr("%1 to %2%3").arg(number(*w.min), number(*w.max), unit);
    if (w.min) return tr("at least %1%2").arg(number(*w.min), unit);
    if (w.max) return tr("at most %1%2").arg(number(*w.max), unit);
    return {};
}

Outcome<double> readNumber(const QString& text, const QString& unit) {
    QString t = text.trimmed();
    if (!unit.isEmpty() && t.endsWith(unit, Qt::CaseInsensitive)) t = t.chopped(unit.size()).trimmed();
    if (t.endsWith(QStringLiteral("°C"))) t = t.chopped(2).trimmed();
    t.replace(QChar(0x2212), QLatin1Char('-'));
    static const QRegularExpression form(QStringLiteral("^[+-]?(\\d+([.,]\\d*)?|[.,]\\d+)$"));
    if (!form.match(t).hasMatch())
        return refusal(QStringLiteral("number"), tr("“%1” is not a number").arg(text.trimmed()),
                       unit.isEmpty() ? tr("type a number, for instance 0.05")
                                      : tr("type a number in %1, for instance 0.05").arg(unit));
    return t.replace(QLatin1Char(','), QLatin1Char('.')).toDouble();
}

Outcome<RunVolume> readRunVolume(const QString& text) {
    const QString t = text.simplified();
    if (t.compare(QStringLiteral("no history"), Qt::CaseInsensitive) == 0 ||
        t.compare(QStringLiteral("no-history"), Qt::CaseInsensitive) == 0)
        return RunVolume{false, {}, {}};
    const QStringList parts = QString(t).remove(QStringLiteral("cm³")).simplified().split(QLatin1Char(' '));
    RunVolume run;
    for (qsizetype i = 0; i < parts.size(); ++i) {
        auto value = readNumber(parts.at(i));
        if (!value || *value < 0 || *value > 1e7 || i > 1)
            return refusal(QStringLiteral("use-so-far"), tr("“%1” is not a use so far").arg(text.trimmed()),
                           tr("type cm³ of plain material, then if any of abrasive material, or say No history"));
        (i == 0 ? run.plain : run.abrasive) = Volume::fromCm3(*value);
    }
    return run;
}

QString severity(Severity s) {
    switch (s) {
    case Severity::Notice: return tr("Note");
    case Severity::Advice: return tr("Advised");
    case Severity::Warning: return tr("Warning");
    case Severity::Mandatory: return tr("Mandatory");
    case Severity::Refusal: return tr("Refused");
    }
    return {};
}

QString scanCaption(ScanTarget t) {
    switch (t) {
    case ScanTarget::Printer: return tr("Printer");
    case ScanTarget::NozzleOutPart: return tr("Out: part nozzle");
    case ScanTarget::NozzleOutSupport: return tr("Out: support nozzle");
    case ScanTarget::NozzleInPart: return tr("In: part nozzle");
    case ScanTarget::NozzleInSupport: return tr("In: support nozzle");
    case ScanTarget::SpoolOutPart: return tr("Out: part spool");
    case ScanTarget::SpoolOutSupport: return tr("Out: support spool");
    case ScanTarget::SpoolInPart: return tr("In: part spool");
    case ScanTarget::SpoolInSupport: return tr("In: support spool");
    case ScanTarget::PlatformCover: return tr("Platform cover");
    case ScanTarget::Place: return tr("Place");
    }
    return {};
}

QString sensor(Sensor s) {
    switch (s) {
    case Sensor::Chamber: return tr("Chamber");
    case Sensor::Head: return tr("Part head");
    case Sensor::SupportHead: return tr("Support head");
    case Sensor::Platform: return tr("Platform");
    }
    return {};
}

QString power(Power p) {
    switch (p) {
    case Power::NoMatter: return {};
    case Power::On: return tr("Power on");
    case Power::Off: return tr("Power off");
    case Power::Isolated: return tr("Isolated from the mains");
    }
    return {};
}

QString plain(const QString& word) {
    return QString(word).replace(QLatin1Char('-'), QLatin1Char(' '));
}

QString fact(const QString& w) {
    if (w == fact::partMaterial) return tr("another part material");
    if (w == fact::supportMaterial) return tr("another support material");
    if (w == fact::partNozzle) return tr("another part nozzle");
    if (w == fact::supportNozzle) return tr("another support nozzle");
    if (w == fact::platformCover) return tr("platform cover to renew");
    if (w == fact::chamberFamily) return tr("another chamber family");
    if (w == fact::hotter) return tr("hotter chamber");
    if (w == fact::cooler) return tr("cooler chamber");
    if (w == fact::nozzleFirstUse) return tr("first use of a nozzle");
    if (w == fact::longIdle) return tr("long idle");
    return plain(w);
}

QString position(Role r) {
    return r == Role::Part ? tr("part") : tr("support");
}

QString activity(Activity a) {
    switch (a) {
    case Activity::Idle: return tr("idle");
    case Activity::Printing: return tr("prints");
    case Activity::PartLying: return tr("part waits");
    case Activity::InChangeover: return tr("changeover");
    case Activity::Down: return tr("down");
    }
    return {};
}

QString cleanOut(CleanOut level) {
    switch (level) {
    case CleanOut::None: return tr("none");
    case CleanOut::Advised: return tr("advised");
    case CleanOut::Mandatory: return tr("mandatory");
    }
    return {};
}

} // namespace interlude::words
