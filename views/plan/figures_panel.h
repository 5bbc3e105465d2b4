#pragma once
// The draft's figures beside those of the published plan and of what any shop could do without a program; and how far the
// draft's goal is from the least that is possible.

#include "views/look/widgets.h"
#include "views/plan/plan_desk.h"

class QComboBox;
class QTableWidget;

namespace interlude {

class FiguresPanel final : public look::Panel {
    Q_OBJECT
public:
    explicit FiguresPanel(PlanDesk& desk, QWidget* parent = nullptr);

    QTableWidget* table() const { return m_table; }
    /// What stands in that row and column now.
    QString figure(int row, int column) const;
    /// What is said of goal, bound and gap.
    QString boundText() const;

private:
    void buildTable();
    void refresh();
    PlanDesk& m_desk;
    QComboBox* m_goal;
    QTableWidget* m_table;
    QLabel* m_bound;
};

/// The rows that such a table has, and one plan's figures in them.
QStringList figureNames(const Bench& bench);
QStringList figuresOf(const planning::Totals& totals);

} // namespace interlude
