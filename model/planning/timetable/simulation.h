#pragma once
// Lets a plan happen, decision time by decision time (design section 6; private to model/planning). `timetable` and
// `Evaluator` run it again without a job that turns out to have no place, until all that is left has one.

#include "model/planning/timetable/crew_profile.h"
#include "model/planning/timetable/nozzle_pool.h"
#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

class Simulation {
public:
    struct Snapshot;
    /// What is remembered of the jobs: everything, or of each printer the last one and the sums, which is quicker.
    enum class Memory { Everything, LastJobs };
    Simulation(const Problem& problem, Changes& changes, Memory memory = Memory::Everything);
    ~Simulation();

    /// One run. Empty when everything has a place; else what has none, with the reason.
    std::vector<NotPlaced> run(const Orders& orders, const std::vector<char>& without);
    /// Of the last run: what runs or is in session and never comes out.
    const std::vector<NotPlaced>& neverOut() const { return m_neverOut; }
    /// By printer; where only the last jobs are remembered, at most one each.
    const std::vector<std::vector<TimedJob>>& printers() const { return m_timed; }
    std::vector<std::vector<TimedJob>>& printers() { return m_timed; }
    /// Sums over the jobs whose part is out; only where the last jobs alone are remembered.
    const Totals& totals() const { return m_totals; }

    /// From now on runs leave a snapshot behind after so many print starts, in the order of time; null: no more.
    void keepSnapshots(std::vector<Snapshot>* kept, int everyStarts);
    /// Whether an order that differs on that printer from position `from` on goes on from there as if run anew. (Only
    /// of runs in which everything had a place.)
    static bool reaches(const Snapshot& snapshot, int printer, std::size_t from);
    /// As `run`, from there. Only where the last jobs alone are remembered.
    std::vector<NotPlaced> resume(const Snapshot& snapshot, const Orders& orders);

    /// What every job adds to a goal from now on; null: no more.
    void keepValues(std::vector<std::int64_t>* byJob, Goal goal);
    /// Ends runs early: as soon as what the jobs have added by then and what the others are expected to add exceed
    /// `most`. `byJob` outlives the limit.
    struct Limit {
        Goal goal = Goal::Cost;
        double most = 0;
        double expected = 0; ///< of the jobs whose part is not out when the run begins
        double share = 1;    ///< of its figure in `byJob` that a job is expected to add
        const std::vector<std::int64_t>* byJob = nullptr;
    };
    void setLimit(const std::optional<Limit>& limit) { m_limit = limit; }
    /// The last run was ended by the limit.
    bool ended() const { return m_ended; }

private:
    /// How far a printer is. Its work goes: removal of the previous part, changeover, print; then again.
    struct Line {
        int printer = 0;
        std::size_t next = 0;        ///< place in its order that comes next
        int state = 0;
        const Change* change = nullptr; ///< of the next job, fixed when the previous print started; null: none
        Place job;                   ///< the next job
        const std::vector<Work>* works = nullptr; ///< what `at` counts in: removal, or changeover
        std::size_t at = 0;
        bool removing = false;
        bool sessionComes = false, sessionPart = false; ///< an open session: still to go on, going on
        Minute ready = 0;            ///< since when the piece at `at` may begin
        bool busy = false;           ///< a piece, or the print, runs or has its start
        int previous = -1;           ///< index in m_timed of the job whose part is in the printer; -1: none
        Minute previousEnd = 0;      ///< end of the previous print, or 0
        const Work* preparation = nullptr;
        Minute preparationReady = 0;
        enum class Prepared { None, Ready, Running, Done } prepared = Prepared::None;
        Minute preparedAt = 0;
        TimedJob coming;             ///< the next job as far as it is known
        bool finished = false;
        bool orderEnded = false;     ///< a next job was asked for and there was none
    };
    enum class Event { WorkEnds, PreparationEnds, PrintEnds, PrintStarts };
    struct Timed {
        Minute at = 0;
        bool isStart = false; ///< ends precede starts
        int printer = 0;
        Event event = Event::WorkEnds;
        bool operator>(const Timed& o) const {
            return std::tie(at, isStart, printer) > std::tie(o.at, o.isStart, o.printer);
        }
    };
    /// One that stands in line.
    struct Waiting {
        bool late = false; ///< a preparation whose printer is not waiting for it yet
        Minute ready = 0;
        Cents lateCost = 0;
        int printer = 0;
        bool preparation = false;
    };

    void begin(const Orders& orders, const std::vector<char>& without);
    std::vector<NotPlaced> play(Minute now);
    void snap(Minute next);
    void remember(TimedJob&& job);
    void addUp(const TimedJob& job);
    void beginPrinter(Line& line);
    void beginSession(Line& line, Minute at);
    void fixNext(Line& line, Minute at);
    void removePart(Line& line, Minute at);
    void changeOver(Line& line, Minute at);
    void goOn(Line& line, Minute at);
    void pieceReady(Line& line, Minute at);
    void allDone(Line& line, Minute at);
    void happen(const Timed& event);
    void pieceEnds(Line& line, Minute at);
    void printStarts(Line& line, Minute at);
    void serve(Minute now);
    bool serveHead(Minute now);
    bool nobodyForAny(Minute now) const;
    bool tryServe(const Waiting& w, Minute now);
    void collect();
    bool needsLine(const Line& line, const Work& work) const;
    bool takesNozzles(const Line& line) const;
    const VariantNumbers& variant(const Place& place) const;
    TimedJob& workOwner(Line& line);
    void partIsOut(Line& line, Minute at);
    int lateJobOf(const Line& line, bool preparation) const;
    Minute nextDecision() const;
    bool takesPartOut(const Line& line) const;
    void giveUp(const Line& line, std::vector<NotPlaced>& out);
    std::string whyStuck(const Line& line) const;
    std::vector<NotPlaced> stuck();
    void push(Minute at, bool isStart, int printer, Event event);

    const Problem& m_problem;
    Changes& m_changes;
    std::vector<std::vector<Place>> m_order;
    CrewProfile m_crew;
    NozzlePool m_nozzles;
    std::vector<Line> m_lines;
    std::vector<char> m_idle; ///< by printer: nothing further is planned there
    std::vector<std::vector<TimedJob>> m_timed;
    std::vector<Timed> m_events; ///< heap
    std::vector<Waiting> m_waiting;
    std::vector<NotPlaced> m_impossible, m_neverOut;
    Minute m_nextSlot = never; ///< the earliest place held in line
    Memory m_memory;
    Totals m_totals;
    std::vector<Snapshot>* m_kept = nullptr;
    int m_everyStarts = 1, m_startsSince = 0;
    std::vector<std::int64_t>* m_values = nullptr;
    Goal m_valueGoal = Goal::Cost;
    std::optional<Limit> m_limit;
    bool m_ended = false;
};

/// Everything that a run goes on from, between two minutes. What it points to belongs to the problem or its changes.
struct Simulation::Snapshot {
    Minute next = 0; ///< the minute that comes
    std::vector<Line> lines;
    std::vector<char> idle;
    std::vector<std::vector<TimedJob>> last;
    std::vector<Timed> events;
    std::vector<Use> uses;
    NozzlePool nozzles;
    Totals totals;
};

/// What a job adds to the sums.
void addJob(Totals& totals, const Problem& problem, const TimedJob& job);

} // namespace interlude::planning
