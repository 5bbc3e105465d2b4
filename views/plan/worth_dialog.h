#pragma once
// Is a changeover worth it? Every variant of one job on every printer, with the changeover there and back, what the others
// lose by it, and from which volume of the part on it pays.

#include "model/planning/plans/worth_it.h"
#include "views/lists/list_model.h"
#include "views/plan/plan_desk.h"

#include <QDialog>

class QLabel;
class QThread;

namespace interlude {

namespace lists {
class ListView;
}

struct WorthLine {
    QString key;
    planning::WorthRow row;
};

class WorthDialog final : public QDialog {
    Q_OBJECT
public:
    WorthDialog(PlanDesk& desk, int job, QWidget* parent = nullptr);
    ~WorthDialog() override;

    lists::ListView* list() const { return m_list; }
    const QList<WorthLine>& lines() const { return m_model->rows(); }

Q_SIGNALS:
    /// The table is there.
    void reckoned();

private:
    QList<lists::Column<WorthLine>> columns() const;
    void reckon(int job);
    void showRows(const QList<planning::WorthRow>& rows);

    PlanDesk& m_desk;
    lists::ListModel<WorthLine>* m_model;
    lists::ListView* m_list;
    QLabel* m_said;
    std::unique_ptr<QThread> m_thread;
};

} // namespace interlude
