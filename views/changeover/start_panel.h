#pragma once
// Before a changeover: which printer, which job and variant, then the summary; from here it starts or is printed.
// Lists, adds, changes and withdraws jobs, too.

#include "views/bench/bench.h"
#include "views/changeover/draft.h"
#include "views/lists/list_view.h"

class QCheckBox;
class QListWidget;
class QPrinter;
class QVBoxLayout;

namespace interlude {

class SummaryPanel;
class TimeField;

class StartPanel final : public QWidget {
    Q_OBJECT
public:
    explicit StartPanel(Bench& bench, QWidget* parent = nullptr);
    void choosePrinter(const PrinterId& printer);
    void chooseJob(const JobId& job, int variant = 0);
    const Draft& draft() const { return m_draft; }
    const std::optional<DraftResult>& result() const { return m_result; }
    /// Reads the shop anew.
    void refresh();
    /// Judges anew what time alone changes, once a minute. What is the same stays where it is.
    void tick();
    /// Starts the session; a refusal is shown and returned.
    std::optional<Finding> start();
    /// The summary or the empty checklist as PDF, on a printer; the pages.
    Outcome<int> writeSummary(const QString& file) const;
    Outcome<int> writeChecklist(const QString& file) const;
    Outcome<int> printSummary(QPrinter& printer) const;
    Outcome<int> printChecklist(QPrinter& printer) const;

Q_SIGNALS:
    void started(const QString& printer);

private:
    QWidget* buildPrinters();
    QWidget* buildJobs();
    QWidget* buildSummary();
    void fillPrinters();
    /// Chooses what the published plan has next for the printer; leaves the choice alone where nothing is planned.
    void proposePlanned();
    void showJob();
    void fillVariants();
    void judge();
    void lift(const Finding& finding);
    void say(const std::optional<Finding>& finding, const QString& otherwise);
    void putOnPaper(const QString& title, const QString& name, Outcome<int> (StartPanel::*write)(const QString&) const,
                    Outcome<int> (StartPanel::*print)(QPrinter&) const);
    /// The changeover that was judged last; the reason why there is none.
    Outcome<Changeover> judged() const;

    Bench& m_bench;
    Draft m_draft;
    std::optional<DraftResult> m_result;
    std::optional<Instant> m_judgedAt;
    bool m_filling = false;
    QListWidget* m_printers;
    lists::ListModel<Job>* m_jobs;
    lists::ListView* m_list;
    QVBoxLayout* m_variants;
    SummaryPanel* m_summary;
    QPushButton *m_start, *m_add, *m_change, *m_withdraw, *m_printSummary, *m_printChecklist;
    QCheckBox* m_late;
    TimeField* m_lateStart;
    QLabel* m_message;
};

} // namespace interlude
