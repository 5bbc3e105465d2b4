#include "views/changeover/wait_column.h"

#include "views/words/words.h"

#include "model/session/evidence.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QVBoxLayout>

namespace interlude {

namespace {
constexpr Milliseconds redrawCurve{15000};
} // namespace

WaitColumn::WaitColumn(GuideDesk& desk, QWidget* parent) : QScrollArea(parent), m_desk(desk) {
    setObjectName(QStringLiteral("waitColumn"));
    setWidgetResizable(true);
    setFocusPolicy(Qt::NoFocus);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(look::unit + 4);
    m_own = new QVBoxLayout;
    m_others = new QVBoxLayout;
    m_quiet = new look::Panel;
    m_quiet->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    m_quiet->body()->addWidget(look::mutedLabel(look::Text::Body, tr("No countdown runs at this printer.")));
    m_curvePanel = new look::Panel;
    m_chart = new CurveChart;
    m_chart->setObjectName(QStringLiteral("curveChart"));
    m_sentence = look::mutedLabel(look::Text::Small);
    m_curvePanel->body()->addWidget(m_chart);
    m_curvePanel->body()->addWidget(m_sentence);
    m_meanwhilePanel = new look::Panel;
    m_meanwhilePanel->body()->addWidget(look::label(look::Text::Body, tr("Meanwhile"), true));
    m_meanwhile = look::label(look::Text::Body);
    m_meanwhile->setObjectName(QStringLiteral("meanwhile"));
    m_meanwhilePanel->body()->addWidget(m_meanwhile);
    column->addLayout(m_own);
    column->addWidget(m_quiet);
    column->addWidget(m_curvePanel);
    addLog(column);
    column->addLayout(m_others);
    column->addWidget(m_meanwhilePanel);
    column->addStretch();
    setWidget(inside);
}

void WaitColumn::addLog(QVBoxLayout* column) {
    auto* panel = new look::Panel;
    panel->body()->addWidget(look::label(look::Text::Body, tr("Measured temperature"), true));
    auto* row = new QHBoxLayout;
    m_sensor = new QComboBox;
    m_sensor->setObjectName(QStringLiteral("logSensor"));
    m_sensor->setAccessibleName(tr("Sensor"));
    for (const Sensor s : {Sensor::Chamber, Sensor::Head, Sensor::SupportHead, Sensor::Platform})
        m_sensor->addItem(words::sensor(s), static_cast<int>(s));
    m_value = new QLineEdit;
    m_value->setObjectName(QStringLiteral("logValue"));
    m_value->setAccessibleName(tr("Measured temperature in °C"));
    m_value->setPlaceholderText(QStringLiteral("°C"));
    auto* log = look::button(tr("Note"));
    log->setObjectName(QStringLiteral("logButton"));
    log->setAccessibleName(tr("Note the measured temperature"));
    const auto note = [this] {
        const QString text = m_value->text();
        const auto sensor = static_cast<Sensor>(m_sensor->currentData().toInt());
        // What is refused stays, to be put right.
        if (text.trimmed().isEmpty() || m_desk.logTemperature(sensor, text)) m_value->clear();
        Q_EMIT left(); // the next scan belongs to the step
    };
    connect(log, &QPushButton::clicked, this, note);
    connect(m_value, &QLineEdit::returnPressed, this, note);
    row->addWidget(m_sensor);
    row->addWidget(m_value, 1);
    row->addWidget(log);
    panel->body()->addLayout(row);
    panel->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    column->addWidget(panel);
}

void WaitColumn::fill(QVBoxLayout* into, QList<CountdownPanel*>& panels, const QList<Countdown>& waits, bool own) {
    while (panels.size() > waits.size()) {
        panels.last()->hide();
        panels.takeLast()->deleteLater();
    }
    while (panels.size() < waits.size()) {
        // One large countdown is what the eye looks for; further ones stand below it, smaller.
        const bool large = own && panels.isEmpty();
        auto* p = new CountdownPanel(large ? CountdownPanel::Size::Large : CountdownPanel::Size::Small);
        if (own) connect(p, &CountdownPanel::chosen, this, [this](const QString& step) { m_desk.choose(step); });
        else connect(p, &CountdownPanel::chosen, this, [this, p] { Q_EMIT m_desk.bench().openChangeover(p->property("printer").toString()); });
        panels.append(p);
        into->addWidget(p);
    }
    for (qsizetype i = 0; i < waits.size(); ++i) {
        const Printer* printer = m_desk.bench().catalogue().printer(waits.at(i).printer);
        panels.at(i)->setProperty("printer", waits.at(i).printer);
        panels.at(i)->show(waits.at(i), m_desk.bench().now(),
                           own || !printer ? QString()
                                           : QStringLiteral("%1 · %2").arg(printer->name, waits.at(i).title));
    }
}

void WaitColumn::refresh(bool whole) {
    QList<Countdown> own, others;
    for (const Countdown& c : m_desk.guide().waits) own.append(c);
    std::stable_sort(own.begin(), own.end(), [](const Countdown& a, const Countdown& b) {
        return a.due && (!b.due || *a.due < *b.due);
    });
    const PrinterId here = m_desk.session() ? m_desk.session()->printer : PrinterId();
    for (const Countdown& c : allCountdowns(m_desk.bench().shop(), m_desk.bench().now()))
        if (c.printer != here) others.append(c);
    fill(m_own, m_ownPanels, own, true);
    fill(m_others, m_otherPanels, others, false);
    m_quiet->setVisible(own.isEmpty());
    QStringList lines;
    for (const Meanwhile& m : m_desk.guide().meanwhile) lines << m.text;
    m_meanwhilePanel->setVisible(!lines.isEmpty());
    m_meanwhile->setText(lines.join(QLatin1Char('\n')));
    refreshCurve(whole);
}

void WaitColumn::refreshCurve(bool whole) {
    const Instant now = m_desk.bench().now();
    if (!whole && m_drawn && now - *m_drawn < redrawCurve && now >= *m_drawn) return;
    m_drawn = now;
    const SessionState* s = m_desk.session();
    const Countdown* shown = nullptr;
    QList<CurvePoint> band;
    for (const Countdown& c : m_desk.guide().waits) {
        if (!s || !c.sensor) continue;
        const QList<CurvePoint> points = curve(m_desk.bench().shop(), *s, c);
        // The curve of the step in the middle goes first.
        const bool inHand = m_desk.shown() && m_desk.shown()->step.id == c.step;
        if (points.isEmpty() || (shown && !inHand)) continue;
        shown = &c;
        band = points;
    }
    m_curvePanel->setVisible(shown != nullptr);
    if (!shown) return;
    // Proposed once for each wait: another sensor chosen since, or a number half typed, belongs to the person.
    const QString wait = QStringLiteral("%1/%2").arg(shown->session).arg(shown->step);
    if (wait != m_sensorFor && m_value->text().isEmpty() && !m_sensor->hasFocus()) {
        m_sensor->setCurrentIndex(m_sensor->findData(static_cast<int>(*shown->sensor)));
        m_sensorFor = wait;
    }
    m_chart->show(band, allReadings(*s), *shown, now, m_desk.bench().catalogue().fleet.zone);
    m_sentence->setText(m_chart->accessibleDescription());
}

} // namespace interlude
