#pragma once
// Foot of the window: shop, ledger and its state, who is signed in, clock, unread problems.

#include "model/catalogue/problem.h"
#include "views/bench/bench.h"

#include <QFrame>

class QLabel;
class QPushButton;

namespace interlude {

class Foot final : public QFrame {
    Q_OBJECT
public:
    explicit Foot(Bench& bench, QWidget* parent = nullptr);

    /// Warnings of the catalogue; the opening differences are added from the workbench.
    void setWarnings(const Problems& warnings);
    int unread() const { return m_unread; }
    /// Lists all problems; they then count as read.
    void openProblems();

Q_SIGNALS:
    void helpWanted();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void refresh();
    void sayLedger();
    Problems problems() const;

    Bench& m_bench;
    Problems m_warnings;
    QSet<QString> m_read;
    int m_unread = 0;
    QLabel* m_shop;
    QLabel* m_ledger;
    QLabel* m_who;
    QLabel* m_clock;
    QPushButton* m_problems;
};

} // namespace interlude
