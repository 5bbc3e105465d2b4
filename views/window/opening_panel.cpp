#include "views/window/opening_panel.h"

#include "views/look/widgets.h"

#include <QApplication>
#include <QCloseEvent>
#include <QLocale>
#include <QProgressBar>
#include <QVBoxLayout>

namespace interlude {

namespace {
constexpr qint64 patienceMs = 400, betweenMs = 100;
} // namespace

OpeningPanel::OpeningPanel(QWidget* parent)
    : QWidget(parent), m_text(look::label(look::Text::Detail)), m_bar(new QProgressBar), m_next(patienceMs) {
    setAttribute(Qt::WA_QuitOnClose, false);
    setWindowTitle(tr("Interlude"));
    setAccessibleName(tr("Opening the ledger"));
    m_text->setObjectName(QStringLiteral("openingText"));
    m_bar->setAccessibleName(tr("Events read"));
    m_bar->setTextVisible(false);
    auto* stop = look::button(tr("&Stop"));
    stop->setObjectName(QStringLiteral("openingStop"));
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 3 * look::unit, 3 * look::unit, 3 * look::unit);
    all->setSpacing(2 * look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, tr("Reading the ledger")));
    all->addWidget(look::mutedLabel(look::Text::Body, tr("Once after the program has become a newer one, every event is read again. Stopping loses "
                                                         "nothing: the next opening begins anew.")));
    all->addWidget(m_text);
    all->addWidget(m_bar);
    all->addWidget(stop, 0, Qt::AlignRight);
    setFixedWidth(70 * look::unit);
    connect(stop, &QPushButton::clicked, this, [this] { m_stopped = true; });
    m_begun.start();
}

bool OpeningPanel::show(qint64 read, qint64 all) {
    if (m_stopped || m_begun.elapsed() < m_next) return !m_stopped;
    m_next = m_begun.elapsed() + betweenMs;
    const QLocale english(QLocale::English);
    m_text->setText(tr("%1 of %2 events").arg(english.toString(read), english.toString(all)));
    m_bar->setRange(0, 1000);
    m_bar->setValue(all > 0 ? static_cast<int>(read * 1000 / all) : 0);
    if (!isVisible()) QWidget::show();
    QApplication::processEvents();
    return !m_stopped;
}

void OpeningPanel::closeEvent(QCloseEvent* event) {
    m_stopped = true;
    event->accept();
}

} // namespace interlude
