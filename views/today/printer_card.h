#pragma once
// One printer on the Today tab: what it does, ready when, what comes next, what runs, what is wrong, and its acts.

#include "views/look/widgets.h"
#include "views/today/card_face.h"

namespace interlude {

class DayStrip;
class Digits;

class PrinterCard final : public look::Panel {
    Q_OBJECT
public:
    /// `plan` is borrowed and outlives the card; null: nothing is planned.
    PrinterCard(Bench& bench, const PrinterId& printer, const PlanAhead* plan = nullptr, QWidget* parent = nullptr);
    PrinterId printer() const { return m_printer; }
    void refresh();

private:
    void doAct();
    void fillMenu(class QMenu* menu);
    QString actText(const CardFace& face) const;
    Bench& m_bench;
    PrinterId m_printer;
    const PlanAhead* m_plan;
    CardFace m_face;
    QLabel *m_name, *m_setup, *m_state, *m_wrong, *m_below, *m_countdowns;
    Digits* m_digits;
    DayStrip* m_strip;
    QPushButton *m_act, *m_more;
};

} // namespace interlude
