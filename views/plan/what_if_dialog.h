#pragma once
// What if people are away, a printer is down, or a rush job comes? An assumption changes this draft alone; with *for the
// shop* an absence or a downtime is entered in the ledger and holds for everybody. What is assumed and what is entered is
// listed and can be withdrawn.

#include "views/asking/ask_dialog.h"
#include "views/plan/plan_desk.h"

class QListWidget;

namespace interlude {

class WhatIfDialog final : public AskDialog {
    Q_OBJECT
public:
    explicit WhatIfDialog(PlanDesk& desk, QWidget* parent = nullptr);

Q_SIGNALS:
    void told(const QString& text);

private:
    enum What { Absence, Downtime, Rush };
    What what() const;
    void arrange();
    void fillKnown();
    void withdraw();
    std::optional<Finding> enter();
    std::optional<Finding> enterAbsence(int people, Instant from, Instant to);
    std::optional<Finding> enterDowntime(Instant from, Instant to);
    void askRush();

    PlanDesk& m_desk;
    QComboBox *m_kind, *m_printer;
    QLineEdit *m_people, *m_why;
    QDateTimeEdit *m_from, *m_to;
    QCheckBox* m_real;
    QListWidget* m_known;
    QPushButton* m_withdraw;
};

/// "1 absence, 1 downtime"; empty when nothing is assumed.
QString assumptionsText(const planning::WhatIf& whatIf);

} // namespace interlude
