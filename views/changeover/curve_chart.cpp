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
    auto* low = new QLineSeries(this);
    auto* high = new QLineSeries(this);
    auto* line = new QLineSeries;
    for (const CurvePoint& p : m_band) {
        low->append(minutesOf(p.at), p.lowC);
        high->append(minutesOf(p.at), p.highC);
        line->append(minutesOf(p.at), p.expectedC);
    }
    auto* area = new QAreaSeries(high, low);
    low->setParent(area);
    high->setParent(area);
    area->setBrush(colours.band);
    area->setPen(Qt::NoPen);
    line->setPen(QPen(colours.accent, 2));
    auto* target = new QLineSeries;
    if (m_countdown.target) {
        target->append(minutesOf(m_frame.from), m_countdown.target->celsius());
        target->append(minutesOf(m_frame.to), m_countdown.target->celsius());
    }
    target->setPen(QPen(colours.warning, 1.5, Qt::DashLine));
    auto* nowLine = new QLineSeries;
    nowLine->append(minutesOf(m_now), m_frame.lowC);
    nowLine->append(minutesOf(m_now), m_frame.highC);
    nowLine->setPen(QPen(colours.muted, 1));
    auto* across = timeAxis(m_frame, m_zone);
    auto* up = new QValueAxis;
    up->setRange(m_frame.lowC, m_frame.highC);
    up->setTickCount(3);
    up->setLabelFormat(QStringLiteral("%.0f"));
    for (QAbstractAxis* axis : {static_cast<QAbstractAxis*>(across), static_cast<QAbstractAxis*>(up)}) {
        axis->setLabelsFont(look::font(look::Text::Small));
        axis->setLabelsColor(colours.muted);
        axis->setGridLineColor(colours.line);
        axis->setLinePenColor(colours.line);
    }
    chart()->addAxis(across, Qt::AlignBottom);
    chart()->addAxis(up, Qt::AlignLeft);
    for (QAbstractSeries* s : {static_cast<QAbstractSeries*>(area), static_cast<QAbstractSeries*>(line),
                               static_cast<QAbstractSeries*>(target), static_cast<QAbstractSeries*>(nowLine),
                               static_cast<QAbstractSeries*>(points(m_frame))}) {
        chart()->addSeries(s);
        s->attachAxis(across);
        s->attachAxis(up);
    }
}

} // namespace interlude
