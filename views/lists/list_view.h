#pragma once
// The list that every page uses: filter as you type, sort by clicking a heading (Ctrl+Shift+arrow keys do the same), copy the
// selection with Ctrl+C, export CSV, columns and sorting remembered, and an empty state that says what to do next.

#include "views/lists/list_model.h"
#include "views/lists/sorted_filter.h"

#include "model/findings/finding.h"

#include <QWidget>

#include <memory>

class QHBoxLayout;
class QKeyEvent;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace interlude::lists {

class ColumnWidths;
class Heading;
class KeptPlace;

class ListView final : public QWidget {
    Q_OBJECT
public:
    /// `name` keys what is remembered ("spools"); `title` is said to people ("Spools"); `model` is adopted.
    ListView(const QString& name, const QString& title, ListTable* model, QWidget* parent = nullptr);
    ~ListView() override;

    /// What stands in place of the rows when there are none at all.
    void setEmptyText(const QString& text);
    /// Where the list begins to sort before a person has chosen otherwise.
    void setFirstSort(int column, Qt::SortOrder order);
    /// What was typed in the filter stands there again at the next start, as columns and sorting do.
    void rememberFilter();
    /// Widgets beside the filter, e.g. a check box.
    void addTool(QWidget* widget);

    /// Tab goes from `after` (may be null) through filter and tools to the rows, which are returned as the last.
    QWidget* orderTabs(QWidget* after);

    ListTable* table() const { return m_model; }
    QTableView* view() const { return m_view; }
    QLineEdit* filterField() const { return m_filter; }
    /// Key of the current row; empty without one.
    QString currentKey() const;
    /// Keys of the selected rows, in the order shown.
    QStringList selectedKeys() const;
    /// For labels and the like: the selected rows, or all shown when none is selected.
    QStringList labelKeys() const;
    enum class Hidden { IsShown, StaysHidden };
    /// Makes that row current and scrolls to it. One that a filter hides is shown by clearing the filter, or let be. False when
    /// there is none, or it stays hidden.
    bool select(const QString& key, Hidden hidden = Hidden::IsShown);
    int visibleRows() const;

    /// Heading and rows as shown now: visible columns in their present order.
    QList<QStringList> shownRows(bool selectedOnly = false) const;
    Outcome<int> exportCsv(const QString& file) const;

public Q_SLOTS:
    void copySelection() const;

Q_SIGNALS:
    /// Another row is current, or the current one says something else.
    void currentKeyChanged(const QString& key);
    /// Enter or a double click on a row.
    void activated(const QString& key);
    void exported(const QString& file, int rows);
    void exportFailed(const interlude::Finding& finding);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;
    void showEvent(QShowEvent* event) override;
    /// The rows take it. No focus proxy: Tab would go to it at once and never reach the filter.
    void focusInEvent(QFocusEvent* event) override;

private:
    void buildTools();
    void buildView();
    void restoreColumns();
    void sortByKey(int columns);
    /// One of the keys for lists of views/bench/keys.h.
    bool ownKey(const QKeyEvent& key);
    /// Gives each column the width that its heading and texts need, unless a person has chosen widths.
    void fitColumns();
    /// Rows have come or say something else: makes room for them.
    void widenColumns(int firstRow, int lastRow);
    void keepPlace();
    void rememberColumns() const;
    void chooseExportFile();
    void filter(const QString& words);
    void updateState();
    void tellCurrent();

    QString m_name, m_title;
    ListTable* m_model;
    SortedFilter* m_proxy;
    QHBoxLayout* m_tools;
    QLineEdit* m_filter;
    QLabel* m_count;
    QPushButton* m_export;
    QStackedWidget* m_stack;
    QTableView* m_view;
    Heading* m_heading;
    QLabel* m_empty;
    std::unique_ptr<ColumnWidths> m_widths;
    std::unique_ptr<KeptPlace> m_place;
    QString m_emptyText, m_lastKey;
    QString m_hiddenKey;      ///< what was current until the filter hid it
    bool m_filtering = false;
    bool m_currentSaysOther = false; ///< while new rows come
    bool m_telling = false;
    bool m_restored = false;
    bool m_ownWidths = false; ///< a person has chosen the widths
    bool m_fitting = false;
    bool m_fitted = false; ///< to rows, while they were seen
};

} // namespace interlude::lists
