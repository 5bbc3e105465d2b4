#pragma once
// Why what is selected stands where it does: its changeover, its waits, its lateness, the feedstock and nozzles that it
// takes; and which of its variants is planned.

#include "views/look/widgets.h"
#include "views/plan/plan_desk.h"

class QComboBox;

namespace interlude {

class WhyPanel final : public look::Panel {
    Q_OBJECT
public:
    explicit WhyPanel(PlanDesk& desk, QWidget* parent = nullptr);

    QComboBox* variantChoice() const { return m_variant; }
    /// Everything that is said now, one line each.
    QStringList lines() const { return m_lines; }

Q_SIGNALS:
    void told(const QString& text);

private:
    void refresh();
    void showOne(int job);
    void showMany(const std::vector<int>& jobs);
    void sayTimed(int job, const planning::TimedJob& timed);
    void sayFeedstock(int job);
    void fillVariants(int job);
    void head(const QString& text);
    void say(const QString& text, const QString& tone = {});

    PlanDesk& m_desk;
    QLabel* m_title;
    QWidget* m_choice;
    QComboBox* m_variant;
    QVBoxLayout* m_rows;
    QStringList m_lines;
};

} // namespace interlude
