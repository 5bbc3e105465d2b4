#include "views/changeover/chart_frame.h"

#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude {

namespace {
QString tr(const char* text) {
    return QCoreApplication::translate("ChartFrame", text);
}
} // namespace

ChartFrame chartFrame(const QList<CurvePoint>& band, const QList<SensorReading>& readings, const Countdown& c,
                      Instant now) {
    ChartFrame f;
    f.from = band.isEmpty() ? now - Minutes(10) : band.first().at;
    f.to = band.isEmpty() ? now : std::max(band.last().at, now);
    double low = 1e9, high = -1e9;
    const auto include = [&](double v) {
        low = std::min(low, v);
        high = std::max(high, v);
    };
    for (const CurvePoint& p : band) {
        include(p.lowC);
        include(p.highC);
    }
    for (const SensorReading& r : readings)
        if (c.sensor && r.sensor == *c.sensor && r.at >= f.from - Minutes(60)) {
            f.from = std::min(f.from, r.at);
            f.to = std::max(f.to, r.at);
            include(r.value.celsius());
            f.readings.append(r);
        }
    if (c.target) include(c.target->celsius());
    if (high < low) low = 20, high = 40;
    constexpr double room = 4.0; // or a reading on the edge would be drawn by half
    f.lowC = std::floor((low - room) / 10.0) * 10.0;
    f.highC = std::max(std::ceil((high + room) / 10.0) * 10.0, f.lowC + 20.0);
    if (f.to - f.from < Minutes(10)) f.to = f.from + Minutes(10);
    return f;
}

QString chartSentence(const QList<CurvePoint>& band, const ChartFrame& frame, const Countdown& c,
                      const QTimeZone& zone) {
    const auto clock = [&](Instant t) { return toZone(t, zone).toString(QStringLiteral("HH:mm")); };
    const auto c1 = [](double v) { return words::celsius(Temperature::fromCelsius(std::round(v))); };
    QStringList parts;
    if (band.isEmpty())
        parts << tr("no prediction, only measure");
    else
        parts << tr("from %1 at %2").arg(c1(band.first().expectedC), clock(band.first().at));
    if (c.target && c.expected)
        parts << tr("expected to reach %1 at %2").arg(words::celsius(*c.target), clock(*c.expected));
    if (c.due) parts << tr("at the latest %1").arg(clock(*c.due));
    QString text = QStringLiteral("%1: %2").arg(c.title, parts.join(QStringLiteral(", ")));
    if (frame.readings.isEmpty()) return text + tr("; no reading yet.");
    const SensorReading& last = frame.readings.last();
    return text + tr("; readings: %1, the last %2 at %3.")
                      .arg(frame.readings.size())
                      .arg(words::celsius(last.value), clock(last.at));
}

} // namespace interlude
