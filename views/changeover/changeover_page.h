#pragma once
// The Changeover tab: the guide of an open session, or the panel from which one starts; a strip on top switches between
// the sessions that are open.

#include "views/bench/bench.h"
#include "views/changeover/due_watch.h"

#include <QWidget>

class QHBoxLayout;
class QStackedWidget;

namespace interlude {

class GuidePanel;
class StartPanel;

class ChangeoverPage final : public QWidget {
    Q_OBJECT
public:
    explicit ChangeoverPage(Bench& bench, QWidget* parent = nullptr);

    /// The guide of that printer's open session, on the step where it stands; without one the start panel with that
    /// printer chosen. An empty id shows the start panel.
    void showPrinter(const QString& printer);
    /// The printer in the guide; empty while the start panel is shown.
    QString printerShown() const { return m_printer; }
    StartPanel& startPanel() const { return *m_start; }
    GuidePanel& guidePanel() const { return *m_guide; }

protected:
    void showEvent(QShowEvent* event) override;

private:
    void refresh();
    void turnTo(QWidget* part);
    void tick();
    void fillStrip();
    void finished(qint64 session);
    Bench& m_bench;
    QString m_printer;
    DueWatch m_watch;
    PrinterId m_attended; ///< where somebody has acted since the last tick
    QWidget* m_strip;
    QHBoxLayout* m_stripRow;
    QString m_stripKey;
    QStackedWidget* m_stack;
    GuidePanel* m_guide;
    StartPanel* m_start;
    bool m_startIsStale = true; ///< something has happened since it was filled
};

} // namespace interlude
