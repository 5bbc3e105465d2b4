#pragma once
// Which parts came from a lot or through a nozzle, and what went into a part or job. Opens the record of a print's session.

#include "model/records/trace.h"
#include "views/bench/bench.h"
#include "views/lists/list_model.h"

#include <QDialog>

class QComboBox;
class QLabel;
class QLineEdit;

namespace interlude {

namespace lists {
class ListView;
}

class TraceDialog final : public QDialog {
    Q_OBJECT
public:
    explicit TraceDialog(Bench& bench, QWidget* parent = nullptr);

    /// Looks it up and shows it; false when nothing is known of it, which is said in the dialog.
    bool look(TraceBy by, const QString& id);

private:
    void build();
    void lookUp();
    QList<lists::Column<TracedPrint>> columns() const;

    Bench& m_bench;
    QComboBox* m_by;
    QLineEdit* m_id;
    QLabel* m_about;
    lists::ListModel<TracedPrint>* m_model;
    lists::ListView* m_list;
};

} // namespace interlude
