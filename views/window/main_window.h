#pragma once
// The one window: tabs in the order of the day, who is signed in, the clock, refusals, problems, help. It wires the tabs
// to the bench and knows nothing of what they show.

#include "model/catalogue/problem.h"
#include "views/bench/bench.h"

#include <QMainWindow>
#include <QPointer>

class QPushButton;
class QStackedWidget;
class QTabBar;

namespace interlude {

class Attention;
class Foot;
class Header;
class HelpWindow;
class MessageBar;
class WallView;

class MainWindow final : public QMainWindow {
    Q_OBJECT
public:
    /// `warnings` are those of the catalogue's reading. `bench` is borrowed and outlives the window.
    explicit MainWindow(Bench& bench, const Problems& warnings = {}, QWidget* parent = nullptr);
    ~MainWindow() override;

    /// The tabs' stable names, in order: today, changeover, plan, stock, nozzles, records.
    static QStringList tabNames();
    /// False when there is no such tab.
    bool showTab(const QString& name);
    QString currentTab() const;
    QWidget* page(const QString& name) const;

    /// How large to open where `wanted` was wished for and a screen has that much free: never larger than that, title included.
    static QSize openingSize(const QSize& wanted, const QSize& screen);

    /// After another reading of the fleet folder.
    void setProblems(const Problems& warnings);
    /// Shown in the message bar until dismissed or until something is recorded.
    void showRefusal(const Finding& finding);
    /// Starts the timer that ticks the bench once a second; tests and the rehearsal tick it themselves.
    void startTicking();

Q_SIGNALS:
    /// F5: the app reads the fleet folder again, then calls `Workbench::reload` and `setProblems`.
    void reloadWanted();

protected:
    bool event(QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;

private:
    void buildPages();
    void buildKeys();
    void buildMenu();
    void connectBench();
    void toggleTheme();
    void openWall();
    void openHelp(const QString& page);

    Bench& m_bench;
    Header* m_header;
    MessageBar* m_message;
    QStackedWidget* m_pages;
    Foot* m_foot;
    Attention* m_attention;
    HelpWindow* m_help = nullptr;
    QPointer<WallView> m_wall;
};

} // namespace interlude
