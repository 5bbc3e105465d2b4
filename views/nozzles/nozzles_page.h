#pragma once
// Nozzles by serial: melt family, where, use so far, life left, measurements; and the acts on them.

#include "views/bench/bench.h"
#include "views/lists/list_model.h"

#include <QWidget>

class QCheckBox;

namespace interlude {

namespace forms {
class ActBar;
class ActDialog;
} // namespace forms
namespace lists {
class ListView;
}
class NozzlePanel;
struct NozzleRow;

class NozzlesPage final : public QWidget {
    Q_OBJECT
public:
    explicit NozzlesPage(Bench& bench, QWidget* parent = nullptr);

    lists::ListView* list() const { return m_list; }
    /// Writes labels of the selected nozzles (of all shown without a selection) as PDF.
    Outcome<int> writeLabels(const QString& file);

private:
    void buildActs();
    void refresh();
    void showChosen();
    void begin(forms::ActDialog* dialog);
    void chooseLabelFile();

    Bench& m_bench;
    forms::ActBar* m_acts;
    lists::ListModel<NozzleRow>* m_model;
    lists::ListView* m_list;
    QCheckBox* m_withRetired;
    NozzlePanel* m_panel;
};

} // namespace interlude
