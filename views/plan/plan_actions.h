#pragma once
// What a planner can do, as a row of buttons; each has a key, too (the page binds them). Every act is a public method, so
// that button, key and test do the same.

#include "views/plan/plan_desk.h"

#include <QWidget>

class QMenu;
class QPushButton;
class QSpinBox;

namespace interlude {

namespace look {
class Flow;
}

class AskDialog;

class PlanActions final : public QWidget {
    Q_OBJECT
public:
    explicit PlanActions(PlanDesk& desk, QWidget* parent = nullptr);

    void undo();
    void redo();
    void groupByFamily();
    /// Begins to search, or ends the search that runs with the best plan so far.
    void improveOrStop();
    /// Locks what is selected; unlocks it when all of it is locked.
    void toggleLock();
    void whatIf();
    void takeBackAssumptions();
    void compare();
    void worthIt();
    AskDialog* replan();
    AskDialog* publish();
    AskDialog* discard();
    void importJobs();
    void importFile(const QString& file);
    void exportPlan();
    /// JSON, CSV or iCalendar, by the file's suffix. Refused (`plan-export`) when it cannot be written.
    Outcome<QString> exportTo(const QString& file);
    void print();

    QSpinBox* seconds() const { return m_seconds; }
    QPushButton* button(const char* name) const;

Q_SIGNALS:
    void told(const QString& text);

private:
    QPushButton* add(look::Flow& row, const char* name, const QString& text, const char* key, void (PlanActions::*act)());
    void buildMore(look::Flow& row);
    void update();
    void say(const std::optional<Finding>& finding, const QString& done);
    void allow(QPushButton* button, const QString& whyNot);
    QString publishText() const;

    PlanDesk& m_desk;
    QPushButton *m_undo, *m_redo, *m_group, *m_improve, *m_lock, *m_whatIf, *m_compare, *m_worth, *m_more, *m_discard,
        *m_publish;
    QSpinBox* m_seconds;
    QMenu* m_menu;
    struct Tip {
        QString text, key; ///< what a button does; its key by its id in views/bench/keys.h
    };
    QHash<QPushButton*, Tip> m_tips;
};

} // namespace interlude
