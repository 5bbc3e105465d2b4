#pragma once
// Four plans side by side: the draft, what is published, and both yardsticks; and job by job what the draft does otherwise
// than one of them. A worker times them.

#include "views/lists/list_model.h"
#include "views/plan/plan_desk.h"

#include <QDialog>

#include <stop_token>

class QComboBox;
class QTableWidget;
class QThread;

namespace interlude {

namespace lists {
class ListView;
}

/// Where one job stands in two plans.
struct ComparedJob {
    struct Place {
        int printer = -1; ///< -1: not placed
        planning::Minute printStart = 0, complete = 0, late = 0;
    };
    Job job;
    Place draft, other;
    bool same() const { return draft.printer == other.printer && draft.complete == other.complete; }
};

class CompareDialog final : public QDialog {
    Q_OBJECT
public:
    explicit CompareDialog(PlanDesk& desk, QWidget* parent = nullptr);
    ~CompareDialog() override;

    QTableWidget* figures() const { return m_figures; }
    lists::ListView* list() const { return m_list; }
    QComboBox* against() const { return m_against; }
    const QList<ComparedJob>& jobs() const { return m_model->rows(); }

Q_SIGNALS:
    void reckoned();

private:
    struct Plan {
        QString name;
        std::optional<planning::Timetable> timetable; ///< empty: there is none
    };
    QList<lists::Column<ComparedJob>> columns() const;
    void buildFigures();
    void reckon();
    void showFigures();
    void showJobs();
    lists::Column<ComparedJob> when(const QString& title, bool draft, planning::Minute ComparedJob::Place::*value) const;

    PlanDesk& m_desk;
    /// A copy of the draft's problem: the desk may take another while this is open, and the timetables borrow it.
    std::shared_ptr<planning::ShopProblem> m_problem;
    std::vector<Plan> m_plans;
    QTableWidget* m_figures;
    QComboBox* m_against;
    lists::ListModel<ComparedJob>* m_model;
    lists::ListView* m_list;
    std::stop_source m_stop;
    std::unique_ptr<QThread> m_thread;
};

} // namespace interlude
