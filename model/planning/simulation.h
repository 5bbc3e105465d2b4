#pragma once
// Lets a plan happen, decision time by decision time (design section 6; private to model/planning). `timetable` and
// `Evaluator` run it again without a job that turns out to have no place, until all that is left has one.

#include "model/planning/crew_profile.h"
#include "model/planning/nozzle_pool.h"
#include "model/planning/timetable.h"

namespace interlude::planning {

class Simulation {
public:
    Simulation(const Problem& problem, Changes& changes);

    /// One run. Empty when everything has a place; else what has none, with the reason.
    std::vector<NotPlaced> run(const Orders& orders, const std::vector<char>& without);
    /// Of the last run: what runs or is in session and never comes out.
    const std::vector<NotPlaced>& neverOut() const { return m_neverOut; }
    const std::vector<std::vector<TimedJob>>& printers() const { return m_timed; }
    std::vector<std::vector<TimedJob>>& printers() { return m_timed; }

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
};

} // namespace interlude::planning
