#pragma once
// What of the plan goes on paper, on which, and where to: a printer or a PDF.

#include "views/asking/ask_dialog.h"
#include "views/asking/on_paper.h"
#include "views/plan/plan_desk.h"
#include "views/plan/plan_paper.h"

class QDateEdit;

namespace interlude {

class PrintDialog final : public AskDialog {
    Q_OBJECT
public:
    /// `told` hears what came of it, when this dialog is gone.
    PrintDialog(PlanDesk& desk, Told told, QWidget* parent);

    /// What is chosen, as PDF; the number of pages.
    Outcome<int> writePdf(const QString& file) const;

private:
    bool isDay() const;
    plan_paper::Wide wide() const;
    Document chosen() const;

    PlanDesk& m_desk;
    Told m_told;
    QComboBox *m_what, *m_printer, *m_paper, *m_where;
    QDateEdit* m_from;
};

} // namespace interlude
