#include "views/changeover/curve_chart.h"

#include "views/look/look.h"

#include <QAreaSeries>
#include <QCategoryAxis>
#include <QEvent>
#include <QLineSeries>
#include <QScatterSeries>
#include <QValueAxis>

namespace interlude {

namespace {

double minutesOf(Instant t) {
    return static_cast<double>(toMs(t)) / 60000.0;
}

/// Two or three clock times that stand on the axis.
QCategoryAxis* timeAxis(const ChartFrame& f, const QTimeZone& zone) {
    auto* axis = new QCategoryAxis;
    axis->setRange(minutesOf(f.from), minutesOf(f.to));
    axis->setStartValue(minutesOf(f.from));
    axis->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    for (int i = 0; i < 3; ++i) {
        const Instant t = f.from + (f.to - f.from) * i / 2;
        axis->append(toZone(t, zone).toString(QStringLiteral("HH:mm")), minutesOf(t));
    }
    return axis;
}

QScatterSeries* points(const ChartFrame& f) {
    auto* series = new QScatterSeries;
    series->setMarkerSize(look::unit);
    series->setColor(look::colours().text);
    series->setBorderColor(look::colours().text);
    for (const SensorReading& r : f.readings) series->append(minutesOf(r.at), r.value.celsius());
    return series;
}

/// Straight from one point to the next: minutes and °C.
QLineSeries* lineThrough(const QList<QPointF>& all, const QPen& pen) {
    auto* line = new QLineSeries;
    line->append(all);
    line->setPen(pen);
    return line;
}

QAreaSeries* areaOf(const QList<CurvePoint>& band) {
    QList<QPointF> low, high;
    for (const CurvePoint& p : band) {
        low.append({minutesOf(p.at), p.lowC});
        high.append({minutesOf(p.at), p.highC});
    }
    auto* upper = lineThrough(high, Qt::NoPen);
    auto* lower = lineThrough(low, Qt::NoPen);
    auto* area = new QAreaSeries(upper, lower);
    upper->setParent(area);
    lower->setParent(area);
    area->setBrush(look::colours().band);
    area->setPen(Qt::NoPen);
    return area;
}

QValueAxis* temperatureAxis(const ChartFrame& f) {
    auto* axis = new QValueAxis;
    axis->setRange(f.lowC, f.highC);
    axis->setTickCount(3);
    axis->setLabelFormat(QStringLiteral("%.0f"));
    return axis;
}

void dress(QAbstractAxis* axis) {
    axis->setLabelsFont(look::font(look::Text::Small));
    axis->setLabelsColor(look::colours().muted);
    axis->setGridLineColor(look::colours().line);
    axis->setLinePenColor(look::colours().line);
}

} // namespace

CurveChart::CurveChart(QWidget* parent) : QChartView(parent) {
    setRenderHint(QPainter::Antialiasing);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::TabFocus);
    setMinimumHeight(22 * look::unit);
    chart()->legend()->hide();
    // The times at both ends stand half outside the axis.
    chart()->setMargins(QMargins(0, 0, 3 * look::unit, 0));
    chart()->layout()->setContentsMargins(0, 0, 0, 0);
}

void CurveChart::show(const QList<CurvePoint>& band, const QList<SensorReading>& readings, const Countdown& c,
                      Instant now, const QTimeZone& zone) {
    m_band = band;
    m_countdown = c;
    m_now = now;
    m_zone = zone;
    m_frame = chartFrame(band, readings, c, now);
    redraw();
    setAccessibleName(tr("Curve: %1").arg(c.title));
    setAccessibleDescription(chartSentence(band, m_frame, c, zone));
}

void CurveChart::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange) redraw();
    QChartView::changeEvent(event);
}

void CurveChart::redraw() {
    const look::Colours& colours = look::colours();
    chart()->removeAllSeries();
    for (QAbstractAxis* axis : chart()->axes()) {
        chart()->removeAxis(axis);
        delete axis;
    }
    chart()->setBackgroundBrush(colours.panel);
    chart()->setBackgroundRoundness(0);
    setBackgroundBrush(colours.panel);
    QList<QPointF> expected, target;
    for (const CurvePoint& p : m_band) expected.append({minutesOf(p.at), p.expectedC});
    if (m_countdown.target)
        for (const Instant t : {m_frame.from, m_frame.to}) target.append({minutesOf(t), m_countdown.target->celsius()});
    const QList<QPointF> now{{minutesOf(m_now), m_frame.lowC}, {minutesOf(m_now), m_frame.highC}};
    QAbstractAxis* across = timeAxis(m_frame, m_zone);
    QAbstractAxis* up = temperatureAxis(m_frame);
    dress(across);
    dress(up);
    chart()->addAxis(across, Qt::AlignBottom);
    chart()->addAxis(up, Qt::AlignLeft);
    const QList<QAbstractSeries*> all{areaOf(m_band), lineThrough(expected, QPen(colours.accent, 2)),
                                      lineThrough(target, QPen(colours.warning, 1.5, Qt::DashLine)),
                                      lineThrough(now, QPen(colours.muted, 1)), points(m_frame)};
    for (QAbstractSeries* s : all) {
        chart()->addSeries(s);
        s->attachAxis(across);
        s->attachAxis(up);
    }
}

} // namespace interlude
