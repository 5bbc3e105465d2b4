#pragma once
// What of the plan goes on paper, on which, and where to: a printer or a PDF.

#include "views/asking/ask_dialog.h"
#include "views/plan/plan_desk.h"
#include "views/plan/plan_paper.h"

class QDateEdit;

namespace interlude {

class PrintDialog final : public AskDialog {
    Q_OBJECT
public:
    explicit PrintDialog(PlanDesk& desk, QWidget* parent = nullptr);

    /// What is chosen, as PDF; the number of pages.
    Outcome<int> writePdf(const QString& file) const;

Q_SIGNALS:
    void told(const QString& text);

private:
    bool isDay() const;
    plan_paper::Wide wide() const;
    PlanOnPaper onPaper() const;
    void goOn();
    void askFile(QWidget* parent);
    void askPrinter(QWidget* parent);

    PlanDesk& m_desk;
    QComboBox *m_what, *m_printer, *m_paper, *m_where;
    QDateEdit* m_from;
};

} // namespace interlude
