#include "views/window/main_window.h"

#include "views/bench/keys.h"
#include "views/bench/remembered.h"
#include "views/changeover/changeover_page.h"
#include "views/look/look.h"
#include "views/look/room.h"
#include "views/nozzles/nozzles_page.h"
#include "views/plan/plan_page.h"
#include "views/records/records_page.h"
#include "views/stock/stock_page.h"
#include "views/today/today_page.h"
#include "views/today/wall_view.h"
#include "views/window/attention.h"
#include "views/window/foot.h"
#include "views/window/header.h"
#include "views/window/help_window.h"
#include "views/window/keys_dialog.h"
#include "views/window/message_bar.h"
#include "views/window/paper_choice.h"
#include "views/window/screen_size.h"

#include <QApplication>
#include <QCloseEvent>
#include <QMenu>
#include <QScreen>
#include <QShortcut>
#include <QStackedWidget>
#include <QTabBar>
#include <QTimer>
#include <QVBoxLayout>

namespace interlude {

namespace {
/// Half a small laptop's screen at 200 %. Below about 960 × 500 pages are scrolled.
constexpr QSize leastSize(640, 400);
} // namespace

MainWindow::MainWindow(Bench& bench, const Problems& warnings, QWidget* parent)
    : QMainWindow(parent), m_bench(bench), m_header(new Header(bench)), m_message(new MessageBar),
      m_pages(new QStackedWidget), m_foot(new Foot(bench)), m_attention(new Attention(*m_header, this)) {
    setWindowTitle(tr("Interlude · %1").arg(bench.catalogue().fleet.name));
    setAccessibleName(windowTitle());
    buildPages(); // before the foot stands below them, so that Tab comes to it last
    auto* centre = new QWidget;
    auto* all = new QVBoxLayout(centre);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addWidget(m_header);
    auto* message = new QVBoxLayout;
    message->setContentsMargins(2 * look::unit, 0, 2 * look::unit, 0);
    message->addWidget(m_message);
    all->addLayout(message);
    all->addWidget(m_pages, 1);
    all->addWidget(m_foot);
    setCentralWidget(centre);
    setMinimumSize(leastSize);
    m_foot->setWarnings(warnings);
    buildMenu();
    buildKeys();
    connectBench();
    resize(1366, 768);
    restoreGeometry(remembered()->value(QStringLiteral("window/geometry")).toByteArray());
    if (screen() && !isMaximized() && !isFullScreen()) resize(openingSize(size(), screen()->availableSize()));
}

QSize MainWindow::openingSize(const QSize& wanted, const QSize& screen) {
    constexpr int title = 4 * look::unit; // that a window manager puts above it
    return wanted.boundedTo(screen - QSize(0, title)).expandedTo(leastSize);
}

MainWindow::~MainWindow() = default;

QStringList MainWindow::tabNames() {
    return {QStringLiteral("today"), QStringLiteral("changeover"), QStringLiteral("plan"), QStringLiteral("stock"),
            QStringLiteral("nozzles"), QStringLiteral("records")};
}

void MainWindow::buildPages() {
    const QStringList titles{tr("Today"), tr("Changeover"), tr("Plan"), tr("Stock"), tr("Nozzles"), tr("Records")};
    QWidget* pages[] = {new TodayPage(m_bench), new ChangeoverPage(m_bench), new PlanPage(m_bench), new StockPage(m_bench),
                        new NozzlesPage(m_bench), new RecordsPage(m_bench)};
    for (int i = 0; i < titles.size(); ++i) {
        m_header->tabs()->addTab(titles[i]);
        pages[i]->setObjectName(tabNames()[i]);
        if (pages[i]->accessibleName().isEmpty()) pages[i]->setAccessibleName(titles[i]);
        // A page is never cut: what a small window has no room for is scrolled to.
        m_pages->addWidget(new look::Room(pages[i], look::Room::Across::Scrolls));
    }
    connect(m_header->tabs(), &QTabBar::currentChanged, m_pages, &QStackedWidget::setCurrentIndex);
}

bool MainWindow::showTab(const QString& name) {
    const auto at = static_cast<int>(tabNames().indexOf(name));
    if (at < 0) return false;
    m_header->tabs()->setCurrentIndex(at);
    return true;
}

QString MainWindow::currentTab() const {
    return tabNames().value(m_pages->currentIndex());
}

QWidget* MainWindow::page(const QString& name) const {
    const auto* room = qobject_cast<const look::Room*>(m_pages->widget(static_cast<int>(tabNames().indexOf(name))));
    return room ? room->widget() : nullptr;
}

void MainWindow::buildMenu() {
    QMenu* menu = m_header->menu();
    menu->clear();
    const auto add = [&](const QString& text, const char* key, auto act) {
        const QString said = key ? keyText(QString::fromLatin1(key)) : QString();
        menu->addAction(said.isEmpty() ? text : text + QLatin1Char('\t') + said, this, act);
    };
    add(tr("&Sign in…"), "sign-in", [this] { m_header->openSignIn(); });
    add(tr("&Wall view"), "wall", [this] { openWall(); });
    add(tr("Size of the &screen…"), nullptr, [this] { askScreenSize(this); });
    add(tr("&Light or dark"), "theme", [this] { toggleTheme(); });
    add(tr("P&aper…"), nullptr, [this] { askPaper(this); });
    add(tr("&Keys…"), nullptr, [this] { (new KeysDialog(this))->open(); });
    menu->addSeparator();
    add(tr("&Reload the fleet folder"), "reload", [this] { Q_EMIT reloadWanted(); });
    add(tr("&Problems of the fleet folder…"), nullptr, [this] { m_foot->openProblems(); });
    add(tr("&Help for this tab"), "help", [this] { openHelp(currentTab()); });
    menu->addSeparator();
    add(tr("&Close"), "close", [this] { close(); });
    for (int i = 0; i < tabNames().size(); ++i)
        m_header->tabs()->setTabToolTip(i, keyText(QStringLiteral("tab.") + tabNames()[i]));
}

void MainWindow::buildKeys() {
    const auto on = [this](const QString& id, auto act) {
        connect(onKey(id, this), &QShortcut::activated, this, act);
    };
    for (int i = 0; i < tabNames().size(); ++i) {
        on(QStringLiteral("tab.") + tabNames()[i], [this, i] {
            m_header->tabs()->setCurrentIndex(i);
            // The keys go to the page, not to a field of the tab that was left.
            page(tabNames()[i])->setFocus(Qt::ShortcutFocusReason);
        });
    }
    on(QStringLiteral("help"), [this] { openHelp(currentTab()); });
    on(QStringLiteral("reload"), [this] { Q_EMIT reloadWanted(); });
    on(QStringLiteral("wall"), [this] { openWall(); });
    on(QStringLiteral("sign-in"), [this] { m_header->openSignIn(); });
    on(QStringLiteral("theme"), [this] { toggleTheme(); });
    on(QStringLiteral("close"), [this] { close(); });
    // Only while there is a message: otherwise Esc belongs to whatever has the focus.
    connect(onKey(QStringLiteral("message"), m_message), &QShortcut::activated, m_message, &MessageBar::dismiss);
    connect(&keys(), &Keys::changed, this, &MainWindow::buildMenu);
}

void MainWindow::openWall() {
    if (m_wall) { // also from here, should the window have the keys
        m_wall->close();
        return;
    }
    m_wall = new WallView(m_bench, {}, this);
    m_wall->setAttribute(Qt::WA_DeleteOnClose);
    if (screen()) m_wall->setGeometry(screen()->geometry());
    for (const QString& id : {QStringLiteral("wall"), QStringLiteral("message")})
        connect(onKey(id, m_wall), &QShortcut::activated, m_wall, &QWidget::close);
    m_wall->showFullScreen();
    m_wall->activateWindow();
    m_wall->setFocus();
}

void MainWindow::connectBench() {
    connect(&m_bench, &Bench::refused, this, &MainWindow::showRefusal);
    connect(&m_bench, &Bench::changed, m_message, &MessageBar::dismiss);
    connect(&m_bench, &Bench::openChangeover, this, [this] { showTab(QStringLiteral("changeover")); });
    connect(&m_bench, &Bench::openRecord, this, [this] { showTab(QStringLiteral("records")); });
    connect(&m_bench, &Bench::openHelp, this, &MainWindow::openHelp);
    connect(&m_bench, &Bench::attention, m_attention, &Attention::call);
    connect(&m_bench, &Bench::attended, m_attention, &Attention::dismiss);
    connect(&m_bench, &Bench::changed, this,
            [this] { setWindowTitle(tr("Interlude · %1").arg(m_bench.catalogue().fleet.name)); });
    connect(m_foot, &Foot::helpWanted, this, [this] { openHelp(currentTab()); });
}

void MainWindow::setProblems(const Problems& warnings) {
    m_foot->setWarnings(warnings);
}

void MainWindow::showRefusal(const Finding& finding) {
    m_message->showFinding(finding);
}

void MainWindow::startTicking() {
    auto* timer = new QTimer(this);
    timer->setInterval(1000);
    timer->setTimerType(Qt::PreciseTimer);
    connect(timer, &QTimer::timeout, &m_bench, &Bench::tick);
    timer->start();
}

void MainWindow::toggleTheme() {
    const look::Theme next = look::theme() == look::Theme::Light ? look::Theme::Dark : look::Theme::Light;
    look::apply(*qApp, next);
    remembered()->setValue(QStringLiteral("window/theme"),
                           next == look::Theme::Dark ? QStringLiteral("dark") : QStringLiteral("light"));
}

void MainWindow::openHelp(const QString& page) {
    if (!m_help) m_help = new HelpWindow(this);
    m_help->open(page);
}

bool MainWindow::event(QEvent* event) {
    // Back at the PC: the reason for calling has been seen.
    if (event->type() == QEvent::WindowActivate && m_attention->isCalling()) m_attention->dismiss();
    return QMainWindow::event(event);
}

void MainWindow::closeEvent(QCloseEvent* event) {
    // Every confirmation is in the ledger already; only a draft of the plan can be lost.
    auto* plan = qobject_cast<PlanPage*>(page(QStringLiteral("plan")));
    if (isVisible() && plan && !plan->mayLeave([this] { close(); })) {
        showTab(QStringLiteral("plan"));
        event->ignore();
        return;
    }
    remembered()->setValue(QStringLiteral("window/geometry"), saveGeometry());
    event->accept();
}

} // namespace interlude
