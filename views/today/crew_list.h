#pragma once
// Who is needed where, in order of time, and what to look at.

#include "views/bench/bench.h"
#include "views/look/widgets.h"
#include "views/today/outlook.h"

class QScrollArea;

namespace interlude {

class PlanAhead;

class CrewList final : public look::Panel {
    Q_OBJECT
public:
    /// `plan` is borrowed and outlives the list; null: nothing is planned.
    explicit CrewList(Bench& bench, const PlanAhead* plan = nullptr, QWidget* parent = nullptr);
    void refresh();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    QLayout* rowOf(const Need& n) const;
    QScrollArea* addArea(const QString& name);
    void shareHeight();
    Bench& m_bench;
    const PlanAhead* m_plan;
    QLabel* m_title;
    QScrollArea *m_calls, *m_look;
    QString m_key; ///< what is shown, so that it is not rebuilt each second
};

} // namespace interlude
