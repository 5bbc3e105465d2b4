#pragma once
// Left of the board: the jobs that are on no printer, by chamber family, setup and job. A row is dragged with everything
// below it; what is dragged here from the board is left out of the plan. Enter places what is chosen where it is done
// earliest.

#include "views/look/widgets.h"
#include "views/plan/plan_desk.h"

#include <QTreeWidget>

class QLineEdit;
class QStackedWidget;

namespace interlude {

/// The rows themselves: a tree whose drags carry job numbers.
class JobRows final : public QTreeWidget {
    Q_OBJECT
public:
    explicit JobRows(PlanDesk& desk, QWidget* parent = nullptr);
    /// The jobs of these rows, groups whole, each once, in the order shown; hidden rows left out.
    std::vector<int> jobsOf(const QList<QTreeWidgetItem*>& items) const;
    /// -1 for a group.
    static int jobOf(const QTreeWidgetItem* item);
    static void setJob(QTreeWidgetItem* item, int job);

Q_SIGNALS:
    void typed(const QString& text);
    void dropped(const std::vector<int>& jobs);

protected:
    QStringList mimeTypes() const override;
    QMimeData* mimeData(const QList<QTreeWidgetItem*>& items) const override;
    void startDrag(Qt::DropActions supported) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dragMoveEvent(QDragMoveEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyboardSearch(const QString& text) override;

private:
    void collect(const QTreeWidgetItem* item, std::vector<int>& out) const;
    /// Those of a drag that stand on the board now.
    std::vector<int> fromBoard(const QMimeData* data) const;
    void copy() const;

    PlanDesk& m_desk;
};

class JobsTree final : public look::Panel {
    Q_OBJECT
public:
    explicit JobsTree(PlanDesk& desk, QWidget* parent = nullptr);

    JobRows* rows() const { return m_rows; }
    QLineEdit* filterField() const { return m_filter; }
    /// Jobs of the chosen rows.
    std::vector<int> chosen() const { return m_rows->jobsOf(m_rows->selectedItems()); }
    /// Puts the chosen jobs at the end of the printer on which the last of them is done earliest; where no printer takes
    /// all of them, each for itself.
    void placeChosen();

Q_SIGNALS:
    void told(const QString& text);
    void worthWanted();

protected:
    void changeEvent(QEvent* event) override;

private:
    void layOut();
    void wire();
    void refresh();
    void build(const QList<std::pair<int, QString>>& jobs);
    QTreeWidgetItem* groupFor(const QString& key, const QString& text, QTreeWidgetItem* above);
    void fillJob(QTreeWidgetItem* row, int job, const QString& reason);
    void sum(QTreeWidgetItem* row);
    void applyFilter();
    void showSelection();
    void openMenu(const QPoint& at);
    /// Empty when no printer takes them.
    std::optional<QString> place(const std::vector<int>& jobs);

    PlanDesk& m_desk;
    QLabel* m_title;
    QLineEdit* m_filter;
    QStackedWidget* m_stack;
    JobRows* m_rows;
    QLabel* m_empty;
    QList<std::pair<int, QString>> m_shown; ///< job and why it cannot be done; empty when it was only left out
    std::optional<std::tuple<Instant, qint64, qsizetype>> m_shownFor; ///< moment, event and jobs of the problem they are of
    QHash<QString, QTreeWidgetItem*> m_groups;
    QSet<QString> m_closed; ///< groups that a person has closed
    bool m_selecting = false;
};

} // namespace interlude
