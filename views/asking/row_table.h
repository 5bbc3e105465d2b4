#pragma once
// A table in a form to which a person adds rows.

#include <QString>

#include <functional>

class QTableWidget;
class QWidget;

namespace interlude {

/// A button below the table: what it says, and its object name.
struct RowButton {
    QString text, name;
};

/// The table (taken over) with two buttons below: one calls `add`, the other removes the current row while there are more
/// than `least`.
QWidget* rowTable(QTableWidget* table, const RowButton& more, const RowButton& less, std::function<void()> add,
                  int least = 0);

} // namespace interlude
