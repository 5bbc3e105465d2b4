#pragma once
// Head of the window: tabs, why attention is wanted, who is signed in, the clock.

#include "views/bench/bench.h"

#include <QFrame>

class QLabel;
class QMenu;
class QPushButton;
class QTabBar;

namespace interlude {

class Header final : public QFrame {
    Q_OBJECT
public:
    explicit Header(Bench& bench, QWidget* parent = nullptr);

    QTabBar* tabs() const { return m_tabs; }
    /// Of the button "Menu"; the window fills it.
    QMenu* menu() const { return m_menu; }
    /// Opens the list of people under the button (Ctrl+I).
    void openSignIn();
    QPushButton* signInButton() const { return m_person; }
    /// Shows the reason; `lit` is the flash.
    void setAttention(const QString& why, bool lit);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void fillPeople();
    void refresh();

    Bench& m_bench;
    QTabBar* m_tabs;
    QLabel* m_why;
    QPushButton* m_person;
    QMenu* m_people;
    QPushButton* m_menuButton;
    QMenu* m_menu;
    QLabel* m_clock;
};

} // namespace interlude
