#pragma once
// The Plan tab: the jobs not placed at the left, the board in the middle, figures and reasons at the right, the acts above.
// It binds the keys and says, in one line, what this draft is and what came of the last act; below it what came otherwise
// than planned.

#include "views/plan/plan_desk.h"

#include <QWidget>

#include <functional>

class QLabel;
class QPushButton;
class QSplitter;

namespace interlude {

class Board;
class FiguresPanel;
class JobsTree;
class PlanActions;
class WhyPanel;

class PlanPage final : public QWidget {
    Q_OBJECT
public:
    explicit PlanPage(Bench& bench, QWidget* parent = nullptr);
    ~PlanPage() override;

    PlanDesk& desk() { return *m_desk; }
    PlanActions& actions() { return *m_actions; }
    JobsTree& jobs() { return *m_jobs; }
    FiguresPanel& figures() { return *m_figures; }
    WhyPanel& why() { return *m_why; }
    Board& board() { return *m_board; }
    /// What the line says: what this draft is, what came of the last act, what came otherwise than planned.
    QString state() const;
    QString said() const;
    QString departed() const;
    /// True when nothing unpublished would be lost with the window. Otherwise asks, without blocking, and calls `leave` once
    /// the draft is published or discarded.
    bool mayLeave(const std::function<void()>& leave);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

private:
    void layOut();
    void buildKeys();
    void connectParts();
    void say(const QString& text);
    void sayState();
    void sayDepartures();

    Bench& m_bench;
    std::unique_ptr<PlanDesk> m_desk;
    PlanActions* m_actions;
    JobsTree* m_jobs;
    Board* m_board;
    FiguresPanel* m_figures;
    WhyPanel* m_why;
    QSplitter* m_split;
    QLabel *m_state, *m_said, *m_departed;
    QWidget* m_follow;
    QPushButton *m_replan, *m_takeBack;
    std::optional<Instant> m_departuresAt; ///< looked for once a minute
};

} // namespace interlude
