#pragma once
// What the parts of the Plan tab share: the draft, what is selected, and everything that a planner does. The parts show it
// and call its verbs; a verb answers with the finding that stands against it, or nothing. One thread; *Improve* runs in a
// worker on a copy and comes back by signal.

#include "model/planning/plans/draft.h"
#include "model/planning/plans/plan_maker.h"
#include "views/bench/bench.h"

#include <QObject>
#include <QTimer>

#include <stop_token>

class QThread;

namespace interlude {

class PlanDesk final : public QObject {
    Q_OBJECT
public:
    explicit PlanDesk(Bench& bench, QObject* parent = nullptr);
    ~PlanDesk() override;

    Bench& bench() { return m_bench; }
    planning::Draft& draft() { return *m_draft; }
    const planning::ShopProblem& problem() const { return m_draft->problem(); }
    const planning::Timetable& timetable() const { return m_draft->timetable(); }
    /// Figures beside the draft's; each counts from the same moment. `published` is empty where nothing is published.
    const planning::Totals& figures() const { return m_draft->timetable().totals; }
    const std::optional<planning::Totals>& publishedFigures() const { return m_published; }
    /// Empty until they have been reckoned, which a worker does.
    const std::optional<planning::Totals>& firstInFirstOut() const { return m_firstInFirstOut; }
    const std::optional<planning::Totals>& sameSetupFirst() const { return m_sameSetupFirst; }
    /// Of the draft's goal, in its unit; empty where none is known.
    std::optional<std::int64_t> bound() const { return m_bound; }
    const QList<planning::Reservation>& reservations() const { return m_reservations; }
    /// The draft is not what is published.
    bool differs() const { return m_differs; }

    /// Whether anybody looks: only then the draft follows the shop at once; else it does when shown again.
    void setWatched(bool watched);

    /// Selected jobs, by number in the problem, in the order of selection.
    const std::vector<int>& selected() const { return m_selected; }
    void select(const std::vector<int>& jobs);
    /// Every job that is on the board in one run of its chamber family with this one; of a job that is left out: all left
    /// out of that family.
    std::vector<int> familyRun(int job) const;
    /// The timed job, or null when it is on no printer.
    const planning::TimedJob* timed(int job) const;

    /// What a drop would cost, before it; the draft stays as it is.
    struct Offer {
        std::optional<Finding> refusal;
        planning::Price price;
        /// Print of the first of the jobs there, from and to; empty when it is left out or finds no time.
        std::optional<std::pair<planning::Minute, planning::Minute>> print;
    };
    Offer offer(const std::vector<int>& jobs, const planning::Drop& drop);
    std::optional<Finding> drop(const std::vector<int>& jobs, const planning::Drop& drop);
    std::optional<Finding> changeVariant(int job, int variant);
    void setLocked(const std::vector<int>& jobs, bool locked);
    void groupByFamily();
    void undo();
    void redo();
    /// Back to the published plan (or to nothing), on the shop as it is now.
    void discard();
    /// Another goal for Improve and for the bound.
    void setGoal(planning::Goal goal);
    /// Other assumptions; the draft stays, as far as its jobs do.
    void assume(const planning::WhatIf& whatIf);
    /// The draft on the shop as it is now; what begins within `keepHours` is locked.
    void replanFromNow(int keepHours);
    /// On the shop of this minute, where the draft is timed from an earlier one: what would be published then stands there.
    void catchUp();
    /// One act of the ledger: the draft, timed from this minute on. Refused while assumptions are made.
    std::optional<Finding> publish();

    /// Searches in a worker until stopped or `seconds` are over; the best plan becomes a step of the draft.
    void improve(double seconds);
    void stopImproving();
    bool improving() const { return m_search != nullptr; }
    /// Everything said about the draft, for print and export.
    planning::PlanReport report();

Q_SIGNALS:
    /// Orders, times or figures are others.
    void changed();
    void selectionChanged();
    /// The worker goes on: seconds, moves tried, the goal's value so far.
    void progressed(double seconds, qint64 moves, double value);
    /// `text` says what came of it.
    void improved(const QString& text);

private:
    struct Search;
    void reckon();
    /// Those of an earlier plan are forgotten; a worker reckons those of this one soon.
    void reckonYardsticks();
    void beginYardsticks();
    void follow();
    void take(const planning::Orders& orders, const QString& what, bool again = false);
    void searchEnded();

    Bench& m_bench;
    std::unique_ptr<planning::Draft> m_draft;
    std::optional<planning::Totals> m_published, m_firstInFirstOut, m_sameSetupFirst;
    std::optional<std::int64_t> m_bound;
    QList<planning::Reservation> m_reservations;
    std::vector<int> m_selected;
    bool m_differs = false, m_watched = false, m_stale = false;
    std::unique_ptr<Search> m_search;
    QThread* m_yardsticks = nullptr;
    std::stop_source m_yardsticksStop; ///< of the worker that runs
    int m_yardstickRound = 0;        ///< answers of an earlier round are thrown away
    QTimer m_yardsticksSoon;         ///< a worker for every act would take the processor from the next one
};

} // namespace interlude
