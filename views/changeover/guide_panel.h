#pragma once
// The guide of one open session: steps on the left, one step large, countdowns on the right, the scan line and the one
// confirm button below. Wiring only: the desk decides.

#include "views/changeover/guide_desk.h"
#include "views/look/widgets.h"

class QAction;
class QGridLayout;
class QStackedWidget;

namespace interlude {

class ConfirmButton;
class FinishPanel;
class PausePanel;
class ScanField;
class StepList;
class StepPanel;
class WaitColumn;

class GuidePanel final : public QWidget {
    Q_OBJECT
public:
    explicit GuidePanel(Bench& bench, QWidget* parent = nullptr);
    GuideDesk& desk() { return m_desk; }
    void setSession(qint64 number);
    /// Redraws; `whole` after something was recorded, else only what runs.
    void refresh(bool whole);
    void takeFocus();

Q_SIGNALS:
    /// The session was finished here.
    void finished(qint64 session);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void build();
    QWidget* buildFoot();
    /// Puts the parts where the room allows: the countdowns beside the step or below the list of steps, the acts in one row or two.
    void fold();
    void wire();
    void redraw(bool whole);
    void redrawHead();
    void redrawFoot();
    void enter(const QString& text, bool typed);
    void confirm();
    void explain(const Finding& finding, bool scan);
    bool paused() const;
    bool finishing() const;

    Bench& m_bench;
    GuideDesk m_desk;
    QLabel* m_printer;
    QLabel* m_fromTo;
    QLabel* m_figures;
    StepList* m_steps;
    QStackedWidget* m_middle;
    StepPanel* m_step;
    PausePanel* m_pause;
    FinishPanel* m_finish;
    ScanField* m_scan;
    ConfirmButton* m_confirm;
    QPushButton* m_takeBack;
    QPushButton* m_problem;
    QPushButton* m_handOver;
    QPushButton* m_more;
    QAction* m_skip;
    QAction* m_correct;
    QAction* m_stop;
    QLabel* m_next;
    QLabel* m_blocked;
    WaitColumn* m_waits;
    look::Panel* m_centre;
    QGridLayout *m_parts, *m_acts;
    std::optional<bool> m_narrow, m_low; ///< as laid out now
    bool m_whole = true;
};

} // namespace interlude
