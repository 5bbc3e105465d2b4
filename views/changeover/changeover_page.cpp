#include "views/changeover/changeover_page.h"

#include "views/changeover/guide_panel.h"
#include "views/changeover/start_panel.h"
#include "views/words/words.h"

#include <QHBoxLayout>
#include <QStackedWidget>

namespace interlude {

ChangeoverPage::ChangeoverPage(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench) {
    setObjectName(QStringLiteral("changeoverPage"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * look::unit, look::unit + 4, 2 * look::unit, 2 * look::unit);
    column->setSpacing(look::unit + 4);
    m_strip = new QWidget;
    m_strip->setObjectName(QStringLiteral("sessionStrip"));
    m_stripRow = new QHBoxLayout(m_strip);
    m_stripRow->setContentsMargins(0, 0, 0, 0);
    column->addWidget(m_strip);
    m_stack = new QStackedWidget;
    m_guide = new GuidePanel(bench);
    m_start = new StartPanel(bench);
    m_stack->addWidget(m_guide);
    m_stack->addWidget(m_start);
    column->addWidget(m_stack, 1);
    connect(&bench, &Bench::changed, this, &ChangeoverPage::refresh);
    connect(&bench, &Bench::signedIn, this, &ChangeoverPage::refresh);
    connect(&bench, &Bench::ticked, this, &ChangeoverPage::tick);
    connect(&bench, &Bench::openChangeover, this, &ChangeoverPage::showPrinter);
    connect(&bench, &Bench::attended, this, [this] { m_attended = m_printer; });
    connect(m_start, &StartPanel::started, this, [this](const QString& printer) { showPrinter(printer); });
    connect(m_guide, &GuidePanel::finished, this, &ChangeoverPage::finished);
    // After a restart the page opens on what was being done.
    for (const SessionState& s : bench.shop().sessions())
        if (s.isOpen() && m_printer.isEmpty()) m_printer = s.printer;
    refresh();
}

void ChangeoverPage::showPrinter(const QString& printer) {
    const bool open = m_bench.shop().openSession(printer) != nullptr;
    m_printer = open ? printer : QString();
    if (!open && !printer.isEmpty()) m_start->choosePrinter(printer);
    refresh();
}

void ChangeoverPage::refresh() {
    const SessionState* s = m_printer.isEmpty() ? nullptr : m_bench.shop().openSession(m_printer);
    if (!s) m_printer.clear();
    fillStrip();
    if (s) {
        m_guide->setSession(s->number);
        if (m_stack->currentWidget() != m_guide) turnTo(m_guide);
        if (isVisible() && !window()->isHidden() && !QApplication::activeModalWidget() &&
            !qobject_cast<QLineEdit*>(QApplication::focusWidget()))
            m_guide->takeFocus();
    } else {
        m_guide->setSession(0);
        turnTo(m_start);
        // What may be started is judged only for eyes: behind another tab it would make every act wait.
        m_startIsStale = !isVisible();
        if (!m_startIsStale) m_start->refresh();
    }
}

/// Only what is shown says how much room it needs.
void ChangeoverPage::turnTo(QWidget* part) {
    for (QWidget* w : {static_cast<QWidget*>(m_guide), static_cast<QWidget*>(m_start)}) {
        const auto policy = w == part ? QSizePolicy::Preferred : QSizePolicy::Ignored;
        w->setSizePolicy(policy, policy);
    }
    m_stack->setCurrentWidget(part);
}

void ChangeoverPage::tick() {
    if (!m_printer.isEmpty()) m_guide->refresh(false);
    else if (isVisible()) m_start->tick();
    for (const QString& why : m_watch.look(m_bench.shop(), m_bench.now(), std::exchange(m_attended, {}))) Q_EMIT m_bench.attention(why);
}

void ChangeoverPage::fillStrip() {
    QStringList open;
    for (const SessionState& s : m_bench.shop().sessions())
        if (s.isOpen()) open << s.printer + (s.phase == SessionPhase::Paused ? QStringLiteral("|paused") : QString());
    const QString key = open.join(QLatin1Char(',')) + QLatin1Char('/') + m_printer;
    m_strip->setVisible(!open.isEmpty());
    if (key == m_stripKey) return;
    m_stripKey = key;
    look::clear(m_stripRow);
    const auto add = [this](const QString& name, const QString& text, const PrinterId& printer) {
        auto* b = look::quietButton(look::shown(text));
        b->setAccessibleName(text);
        b->setObjectName(name);
        b->setCheckable(true);
        b->setChecked(printer == m_printer);
        b->setFocusPolicy(Qt::TabFocus);
        connect(b, &QPushButton::clicked, this, [this, printer] {
            QMetaObject::invokeMethod(this, [this, printer] { showPrinter(printer); }, Qt::QueuedConnection);
        });
        m_stripRow->addWidget(b);
    };
    for (const QString& entry : open) {
        const PrinterId id = entry.section(QLatin1Char('|'), 0, 0);
        const QString name = m_bench.catalogue().printerName(id);
        add(QStringLiteral("session-") + id, entry.contains(QLatin1Char('|')) ? tr("%1 · paused").arg(name) : name, id);
    }
    add(QStringLiteral("startAnother"), tr("Start another"), PrinterId());
    m_stripRow->addStretch();
}

void ChangeoverPage::finished(qint64 session) {
    refresh();
    Q_EMIT m_bench.openRecord(session);
}

void ChangeoverPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_startIsStale) refresh();
    if (!m_printer.isEmpty()) m_guide->takeFocus();
}

} // namespace interlude
