#pragma once
// The shop of the twin, minute by minute (see minute_twin.h).

#include "model/planning/timetable/timetable.h"

#include <set>
#include <tuple>

namespace interlude::tests {

using namespace planning;

/// One thing in a printer's life, in order.
struct Item {
    enum What { Task, Gate, Print, SetupEnd } what = Task;
    size_t job = 0;             ///< index into the printer's timed jobs
    const Work* work = nullptr; ///< of a task
    Minute minutes = 0;         ///< of a print
    bool active = false;
    Minute end = 0;
    size_t timed = 0; ///< of an active task: which of the job's timed works
};

/// The preparation of the changeover that comes next.
struct Preparation {
    const Work* work = nullptr;
    size_t job = 0;
    Minute ready = 0;
    bool active = false, done = true;
    bool stoodFor = false; ///< the printer stands waiting for it
    Minute stoodSince = 0;
    Minute end = 0;
};

struct Bay {
    std::vector<TimedJob> jobs;
    std::vector<Item> life;
    size_t at = 0;    ///< the present item
    Minute ready = 0; ///< when the item before it ended
    Preparation preparation;
    size_t nextPlace = 0; ///< next of the order whose sequence is not fixed yet
    int state = 0;        ///< what the printer wears once everything in `life` is over
    std::array<int, 2> mounted{-1, -1};
    Minute lastPrintEnd = 0; ///< turnaround is counted from here
    bool tookNozzles = false;
    std::array<int, 2> taken{-1,
                             -1}; ///< by the changeover that goes on; the old ones stay mounted until they are removed
    bool over() const { return at == life.size(); }
};

/// A place in the line of ready hands-on segments.
struct InLine {
    bool behind = false; ///< a preparation for which no printer waits
    Minute ready = 0;
    Cents late = 0;
    int printer = 0;
    bool preparation = false;
    bool operator<(const InLine& o) const {
        return std::tuple(behind, ready, -late, printer) < std::tuple(o.behind, o.ready, -o.late, o.printer);
    }
};

class Minutes {
public:
    Minutes(const Problem& problem, Changes& changes, const Orders& orders, const std::set<int>& without);
    /// True when everything came to its end; else `toDrop` tells what is not placed.
    bool run();
    std::vector<std::vector<TimedJob>> result() const;

    std::set<int> toDrop;
    std::set<int> impossible;
    std::set<int> neverOut; ///< runs or is in session, and never finds enough people

private:
    const Work* workOf(const InLine& e) const;
    const JobNumbers* jobOf(const TimedJob& job) const;
    void begin(int p);
    void beginSession(int p, const std::vector<Work>& work);
    void addWorks(int p, const std::vector<Work>& work, size_t job);
    void fixNext(int p);
    void addPlanned(int p, const Place& place, const Change& change);
    std::array<bool, 2> worn(int p, const VariantNumbers& variant) const;

    void ends(int p);
    void endTask(int p, Item& item);
    void startsAlone(int p);
    bool down(int p, Minute from, Minute length) const;
    void mountTaken(Bay& bay);
    void startPrint(int p, Item& item);

    void readLine();
    bool startFirst();
    std::vector<InLine> line() const;
    std::optional<Minute> slot(const InLine& e, Minute length) const;
    void occupy(const Work& work, Minute from, Minute to);
    void occupyRunning();
    void start(const InLine& e, Minute length, std::array<int, 2> taken);

    bool takes(const InLine& e) const;
    const Change& changeOf(const InLine& e) const;
    const VariantNumbers& variantOf(const InLine& e) const;
    std::optional<std::array<int, 2>> choose(const InLine& e) const;
    bool serves(const NozzlePiece& n, const NozzleNeed& need, std::int64_t life) const;
    int rankOf(size_t nozzle) const;
    Minute growth(std::array<int, 2> taken) const;

    bool nothingMoves() const;
    void decideDrop();
    void dropAll(int p);
    bool noNozzleAnyMore(const InLine& e) const;

    const Problem& m_problem;
    Changes& m_changes;
    std::vector<std::vector<Place>> m_order;
    std::vector<Bay> m_bays;
    std::vector<NozzlePiece> m_nozzles;
    std::vector<int> m_crew;                   ///< by minute, what is left
    std::vector<std::vector<int>> m_toolsLeft; ///< by tool, by minute
    std::vector<int> m_crewAll;
    Minute m_now = 0, m_lastBorder = 0, m_horizon = 0;
    bool m_startedNow = false;
};

} // namespace interlude::tests
