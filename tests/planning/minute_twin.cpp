#include "tests/planning/minute_twin.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace interlude::tests {

using namespace planning;

namespace {

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
    size_t at = 0;        ///< the present item
    Minute ready = 0;     ///< when the item before it ended
    Preparation preparation;
    size_t nextPlace = 0; ///< next of the order whose sequence is not fixed yet
    int state = 0;        ///< what the printer wears once everything in `life` is over
    std::array<int, 2> mounted{-1, -1};
    Minute lastPrintEnd = 0; ///< turnaround is counted from here
    bool tookNozzles = false;
    std::array<int, 2> taken{-1, -1}; ///< by the changeover that goes on; the old ones stay mounted until they are removed
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

Cents roundedPerHour(Cents perHour, Minute minutes) {
    return (perHour * minutes + 30) / 60; // to the nearest cent
}

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
    std::vector<int> m_crew;                    ///< by minute, what is left
    std::vector<std::vector<int>> m_toolsLeft; ///< by tool, by minute
    std::vector<int> m_crewAll;
    Minute m_now = 0, m_lastBorder = 0, m_horizon = 0;
    bool m_startedNow = false;
};

Minutes::Minutes(const Problem& problem, Changes& changes, const Orders& orders, const std::set<int>& without)
    : m_problem(problem), m_changes(changes), m_nozzles(problem.nozzles) {
    for (const auto& order : orders.printers) {
        m_order.emplace_back();
        for (const Place& place : order)
            if (!without.contains(place.job)) m_order.back().push_back(place);
    }
    for (const CrewFrom& c : problem.crew) m_lastBorder = std::max(m_lastBorder, c.from);
    for (const JobNumbers& j : problem.jobs) m_lastBorder = std::max(m_lastBorder, j.release.value_or(0));
    for (const PrinterNumbers& p : problem.printers)
        for (const Span& s : p.down) m_lastBorder = std::max(m_lastBorder, s.to >= never ? s.from : s.to);
    m_horizon = m_lastBorder + 3000;
    for (Minute t = 0; t < m_horizon; ++t) {
        int crew = 0;
        for (const CrewFrom& c : problem.crew)
            if (c.from <= t) crew = c.crew;
        m_crewAll.push_back(crew);
    }
    m_bays.resize(problem.printers.size());
    for (int p = 0; p < static_cast<int>(m_bays.size()); ++p) begin(p);
}

const JobNumbers* Minutes::jobOf(const TimedJob& job) const {
    return job.job < 0 ? nullptr : &m_problem.jobs[static_cast<size_t>(job.job)];
}

void Minutes::addWorks(int p, const std::vector<Work>& work, size_t job) {
    for (const Work& w : work) m_bays[static_cast<size_t>(p)].life.push_back({Item::Task, job, &w, 0, false, 0, 0});
}

// "A printer's life is: part removal of the previous print (ready at its end), the changeover's segments in order, the print,
// the next part removal."
void Minutes::begin(int p) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    const PrinterNumbers& printer = m_problem.printers[static_cast<size_t>(p)];
    bay.state = printer.state;
    bay.mounted = printer.mounted;
    static const std::vector<Work> none;
    const std::vector<Work>& session = printer.session ? printer.sessionWork : none;
    const bool sessionRemoves = !session.empty() && session.front().kind == Kind::PartRemoval;
    if (printer.partLies) {
        TimedJob job;
        job.complete = never;
        job.job = printer.runningJob;
        job.variant = printer.runningVariant;
        job.running = true;
        job.printer = p;
        job.printStart = printer.runningStart;
        // A part that lies there has ended before `now`, which was not the planner's doing: turnaround begins "from `now`, if
        // idle".
        job.printEnd = printer.runningEnd;
        bay.lastPrintEnd = std::max<Minute>(0, printer.runningEnd);
        bay.jobs.push_back(job);
        bay.life.push_back({Item::Print, 0, nullptr, 0, true, bay.lastPrintEnd, 0});
        if (!sessionRemoves) addWorks(p, m_changes.removal(p, printer.state), 0);
    }
    if (printer.session) beginSession(p, session);
    // What comes after a session is fixed when that starts its print, or ends without one; else at once.
    if (!printer.session) fixNext(p);
}

// "An open session contributes its remaining segments." What it removes at its beginning is the part that lies there.
void Minutes::beginSession(int p, const std::vector<Work>& work) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    const PrinterNumbers& printer = m_problem.printers[static_cast<size_t>(p)];
    TimedJob job;
    job.complete = never;
    job.printStart = never;
    job.job = printer.sessionJob;
    job.variant = printer.sessionVariant;
    job.session = true;
    job.printer = p;
    bool leading = printer.partLies;
    for (const Work& w : work) {
        leading = leading && w.kind == Kind::PartRemoval;
        bay.life.push_back({Item::Task, leading ? 0 : bay.jobs.size(), &w, 0, false, 0, 0});
    }
    bay.jobs.push_back(job);
    bay.state = printer.sessionState;
    if (job.job < 0) {
        bay.life.push_back({Item::SetupEnd, bay.jobs.size() - 1, nullptr, 0, false, 0, 0});
        return;
    }
    const auto& variant = m_problem.jobs[static_cast<size_t>(job.job)].variants[static_cast<size_t>(job.variant)];
    bay.life.push_back(
        {Item::Print, bay.jobs.size() - 1, nullptr, variant.print[static_cast<size_t>(p)], false, 0, 0});
    addWorks(p, m_changes.removal(p, bay.state), bay.jobs.size() - 1);
}

// "Too little life left for the job is refused": then the nozzle is exchanged. "`no-history` is never counted as zero."
std::array<bool, 2> Minutes::worn(int p, const VariantNumbers& variant) const {
    std::array<bool, 2> result{};
    if (!m_problem.scarceNozzles) return result;
    for (size_t i = 0; i < 2; ++i) {
        const int n = m_bays[static_cast<size_t>(p)].mounted[i];
        if (n < 0) continue;
        const auto& life = m_nozzles[static_cast<size_t>(n)].life;
        result[i] = life && *life < variant.life[i];
    }
    return result;
}

// "The sequence is fixed when the previous print starts." "A job that no printer fits is not placed."
void Minutes::fixNext(int p) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    const auto& order = m_order[static_cast<size_t>(p)];
    while (bay.nextPlace < order.size()) {
        const Place place = order[bay.nextPlace++];
        const auto& variant = m_problem.jobs[static_cast<size_t>(place.job)].variants[static_cast<size_t>(place.variant)];
        if (variant.print[static_cast<size_t>(p)] >= 0) {
            const Change& change = m_changes.from(p, bay.state, place.job, place.variant, worn(p, variant));
            if (change.possible) return addPlanned(p, place, change);
        }
        impossible.insert(place.job);
    }
}

void Minutes::addPlanned(int p, const Place& place, const Change& change) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    TimedJob job;
    job.complete = never;
    job.job = place.job;
    job.variant = place.variant;
    job.printer = p;
    job.change = &change;
    const size_t index = bay.jobs.size();
    // "External steps are one block, the preparation, per changeover: ready when the printer's previous print starts (or at
    // once)… No external steps, no preparation."
    if (change.preparation) {
        bay.preparation = {&*change.preparation, index, m_now, false, false, false, 0, 0};
        // "The changeover's first segment waits for it."
        bay.life.push_back({Item::Gate, index, nullptr, 0, false, 0, 0});
    }
    addWorks(p, change.work, index);
    const auto& variant = m_problem.jobs[static_cast<size_t>(place.job)].variants[static_cast<size_t>(place.variant)];
    bay.life.push_back({Item::Print, index, nullptr, variant.print[static_cast<size_t>(p)], false, 0, 0});
    bay.state = change.next;
    // "After its last job the part is still removed."
    addWorks(p, m_changes.removal(p, bay.state), index);
    bay.jobs.push_back(job);
}

// "Within one minute all ends precede all starts."
void Minutes::ends(int p) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    if (Preparation& own = bay.preparation; own.active && own.end == m_now) {
        own.active = false;
        own.done = true;
    }
    if (bay.over() || !bay.life[bay.at].active || bay.life[bay.at].end != m_now) return;
    Item& item = bay.life[bay.at];
    item.active = false;
    if (item.what == Item::Task) endTask(p, item);
    else bay.lastPrintEnd = m_now;
    ++bay.at;
    bay.ready = m_now;
    // "A job is complete when its part is out."
    const bool more = std::any_of(bay.life.begin() + static_cast<std::ptrdiff_t>(bay.at), bay.life.end(),
                                  [&](const Item& i) { return i.job == item.job; });
    if (!more) bay.jobs[item.job].complete = m_now;
}

// "A removed nozzle is free when its removing segment ends."
void Minutes::endTask(int p, Item& item) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    for (size_t i = 0; i < 2; ++i) {
        if (!m_problem.scarceNozzles || !item.work->removes[i] || bay.mounted[i] < 0) continue;
        NozzlePiece& nozzle = m_nozzles[static_cast<size_t>(bay.mounted[i])];
        nozzle.printer = -1;
        bay.jobs[item.job].work[item.timed].freed[i] = bay.mounted[i];
        bay.mounted[i] = -1;
    }
}

// "Nothing of a printer overlaps its downtime: it starts afterwards."
bool Minutes::down(int p, Minute from, Minute length) const {
    for (const Span& s : m_problem.printers[static_cast<size_t>(p)].down)
        if (from < s.to && s.from < from + length) return true;
    return false;
}

// "A waiting segment and a print run at any hour." "The print needs changeover done and job released."
void Minutes::startsAlone(int p) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    if (bay.over() || bay.life[bay.at].active) return;
    if (bay.life[bay.at].what == Item::SetupEnd) {
        TimedJob& setup = bay.jobs[bay.life[bay.at++].job];
        setup.changeoverDone = setup.complete = bay.ready;
        setup.printStart = 0; // it has none
        fixNext(p);
        if (bay.over()) return;
    }
    if (bay.life[bay.at].what == Item::Gate) {
        if (!bay.preparation.done) {
            // "…behind all internal segments until its printer stands waiting for it; then ready since then."
            if (!bay.preparation.stoodFor) bay.preparation.stoodSince = bay.ready;
            bay.preparation.stoodFor = true;
            return;
        }
        bay.ready = std::max(bay.ready, bay.preparation.end);
        ++bay.at;
    }
    Item& item = bay.life[bay.at];
    if (item.what == Item::Print) {
        TimedJob& job = bay.jobs[item.job];
        job.changeoverDone = bay.ready;
        const JobNumbers& numbers = *jobOf(job);
        if (m_now < numbers.release.value_or(m_now) || down(p, m_now, item.minutes)) return;
        startPrint(p, item);
    } else if (item.work->kind == Kind::Waiting && !down(p, m_now, item.work->minutes)) {
        TimedJob& job = bay.jobs[item.job];
        item.active = true;
        item.end = m_now + item.work->minutes;
        job.work.push_back({item.work, m_now, item.end, {-1, -1}, {-1, -1}});
        job.changeoverMinutes += item.work->minutes;
        m_startedNow = true;
    }
}

void Minutes::startPrint(int p, Item& item) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    TimedJob& job = bay.jobs[item.job];
    const JobNumbers& numbers = *jobOf(job);
    item.active = true;
    item.end = m_now + item.minutes;
    job.printStart = m_now;
    job.printEnd = item.end;
    // Turnaround: "printer time from one print's end (or from `now`, if idle) to the next print's start, less the time in
    // which the changeover is done and the job not yet released".
    const Minute unreleased = std::max<Minute>(0, numbers.release.value_or(0) - job.changeoverDone);
    job.turnaround = m_now - bay.lastPrintEnd - unreleased;
    for (size_t i = 0; i < 2; ++i)
        if (bay.taken[i] >= 0) bay.mounted[i] = bay.taken[i];
    bay.taken = {-1, -1};
    // "Life is deducted at print start."
    const VariantNumbers& variant = numbers.variants[static_cast<size_t>(job.variant)];
    for (size_t i = 0; i < 2; ++i) {
        if (!m_problem.scarceNozzles || bay.mounted[i] < 0) continue;
        NozzlePiece& nozzle = m_nozzles[static_cast<size_t>(bay.mounted[i])];
        if (nozzle.life) *nozzle.life -= variant.life[i];
        // "A nozzle serves one melt family once used."
        if (nozzle.family < 0 && job.change) nozzle.family = job.change->nozzle[i].family;
    }
    m_startedNow = true;
    bay.tookNozzles = false;
    fixNext(p); // may move `job` and `item`
}

// "The ready hands-on segments stand in line: ready earliest, then higher late cost of the job, then printer order."
std::vector<InLine> Minutes::line() const {
    std::vector<InLine> result;
    for (int p = 0; p < static_cast<int>(m_bays.size()); ++p) {
        const Bay& bay = m_bays[static_cast<size_t>(p)];
        const auto late = [&](size_t job) { return jobOf(bay.jobs[job]) ? jobOf(bay.jobs[job])->lateCostPerHour : 0; };
        if (const Preparation& own = bay.preparation; !own.done && !own.active)
            result.push_back({!own.stoodFor, own.stoodFor ? own.stoodSince : own.ready, late(own.job), p, true});
        if (bay.over()) continue;
        const Item& item = bay.life[bay.at];
        if (item.what != Item::Task || item.active || item.work->kind == Kind::Waiting) continue;
        result.push_back({false, bay.ready, late(item.job), p, false});
    }
    std::sort(result.begin(), result.end());
    return result;
}

const Work* Minutes::workOf(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    return e.preparation ? bay.preparation.work : bay.life[bay.at].work;
}

void Minutes::occupy(const Work& work, Minute from, Minute to) {
    for (Minute t = from; t < to; ++t) {
        m_crew[static_cast<size_t>(t)] -= work.people;
        for (const int tool : work.tools) --m_toolsLeft[static_cast<size_t>(tool)][static_cast<size_t>(t)];
    }
}

void Minutes::occupyRunning() {
    m_crew = m_crewAll;
    m_toolsLeft.clear();
    for (const int pieces : m_problem.toolPieces) m_toolsLeft.emplace_back(m_horizon, pieces);
    for (const Bay& bay : m_bays) {
        if (bay.preparation.active) occupy(*bay.preparation.work, m_now, bay.preparation.end);
        if (bay.over()) continue;
        if (const Item& item = bay.life[bay.at]; item.active && item.what == Item::Task)
            occupy(*item.work, m_now, item.end);
    }
}

// "A hands-on segment needs `people` of the crew, and its tools, for its whole length." "The earliest slot in which crew and
// tools suffice beside what runs and the slots before it." "A segment may cross shift borders while enough people remain."
std::optional<Minute> Minutes::slot(const InLine& e, Minute length) const {
    const Work& work = *workOf(e);
    for (Minute from = m_now; from + length <= m_horizon; ++from) {
        bool fits = !down(e.printer, from, length);
        for (Minute t = from; fits && t < from + length; ++t) {
            fits = work.people == 0 || m_crew[static_cast<size_t>(t)] >= work.people;
            for (const int tool : work.tools) {
                const auto pieces = std::count(work.tools.begin(), work.tools.end(), tool);
                fits = fits && m_toolsLeft[static_cast<size_t>(tool)][static_cast<size_t>(t)] >= pieces;
            }
        }
        if (fits) return from;
    }
    return {};
}

// "Each in turn takes the earliest slot…; a slot that is now starts; a later one only holds its place and is recomputed at
// the next decision time. One whose nozzle is not free takes none."
bool Minutes::startFirst() {
    occupyRunning();
    for (const InLine& e : line()) {
        std::array<int, 2> taken{-1, -1};
        if (takes(e)) {
            const auto chosen = choose(e);
            if (!chosen) continue;
            taken = *chosen;
        }
        const Minute length = workOf(e)->minutes + growth(taken);
        const auto from = slot(e, length);
        if (from == m_now) {
            start(e, length, taken);
            return true;
        }
        if (from) occupy(*workOf(e), *from, *from + length);
    }
    return false;
}

// "After each start the line is read from its head."
void Minutes::readLine() {
    if (line().empty()) return;
    while (startFirst()) m_startedNow = true;
}

void Minutes::start(const InLine& e, Minute length, std::array<int, 2> taken) {
    Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    const Work& work = *workOf(e);
    TimedWork timed{&work, m_now, m_now + length, taken, {-1, -1}};
    if (e.preparation) {
        bay.preparation.active = true;
        bay.preparation.end = timed.end;
        auto& list = bay.jobs[bay.preparation.job].work;
        list.insert(list.begin(), timed);
        return;
    }
    Item& item = bay.life[bay.at];
    item.active = true;
    item.end = timed.end;
    TimedJob& job = bay.jobs[item.job];
    item.timed = job.work.size();
    job.work.push_back(timed);
    if (work.kind == Kind::HandsOn) job.changeoverMinutes += length;
    const bool takesThem = takes(e);
    if (takesThem) bay.tookNozzles = true;
    for (size_t i = 0; i < 2; ++i) {
        if (taken[i] < 0) continue;
        NozzlePiece& nozzle = m_nozzles[static_cast<size_t>(taken[i])];
        if (nozzle.printer >= 0)
            m_bays[static_cast<size_t>(nozzle.printer)].mounted[static_cast<size_t>(nozzle.position)] = -1;
        nozzle.printer = e.printer;
        nozzle.position = static_cast<int>(i);
    }
    if (takesThem) bay.taken = taken;
}

const Change& Minutes::changeOf(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    return *bay.jobs[bay.life[bay.at].job].change;
}

const VariantNumbers& Minutes::variantOf(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    const TimedJob& job = bay.jobs[bay.life[bay.at].job];
    return jobOf(job)->variants[static_cast<size_t>(job.variant)];
}

// "A changeover that mounts two takes both at the first mounting." A session has chosen its nozzles already.
bool Minutes::takes(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    if (!m_problem.scarceNozzles || e.preparation || !workOf(e)->mounts || bay.tookNozzles) return false;
    return bay.jobs[bay.life[bay.at].job].change != nullptr;
}

// "A mounting segment needs a nozzle of the right type and melt family with enough life for the job."
bool Minutes::serves(const NozzlePiece& n, const NozzleNeed& need, std::int64_t life) const {
    return n.type == need.type && (n.family < 0 || n.family == need.family) && (!n.life || *n.life >= life);
}

// "Free ones first, then those of printers with nothing further planned after their last part removal": 0, 1; else -1.
int Minutes::rankOf(size_t nozzle) const {
    const int p = m_nozzles[nozzle].printer;
    if (p < 0) return 0;
    return m_bays[static_cast<size_t>(p)].over() ? 1 : -1;
}

// "…among these the least life that suffices, life without history last, then file order; chosen when the segment starts."
std::optional<std::array<int, 2>> Minutes::choose(const InLine& e) const {
    std::array<int, 2> taken{-1, -1};
    for (size_t i = 0; i < 2; ++i) {
        const NozzleNeed& need = changeOf(e).nozzle[i];
        if (!need.exchange) continue;
        using Key = std::tuple<int, bool, std::int64_t, size_t>;
        std::optional<Key> best;
        for (size_t n = 0; n < m_nozzles.size(); ++n) {
            const NozzlePiece& piece = m_nozzles[n];
            if (rankOf(n) < 0 || !serves(piece, need, variantOf(e).life[i])) continue;
            if (i == 1 && taken[0] == static_cast<int>(n)) continue;
            const Key key(rankOf(n), !piece.life.has_value(), piece.life.value_or(0), n);
            if (!best || key < *best) best = key;
        }
        if (!best) return {};
        taken[i] = static_cast<int>(std::get<3>(*best));
    }
    return taken;
}

// "The segment grows by the giver's `nozzle-removal-minutes`."
Minute Minutes::growth(std::array<int, 2> taken) const {
    Minute result = 0;
    for (const int n : taken)
        if (n >= 0 && m_nozzles[static_cast<size_t>(n)].printer >= 0)
            result += m_problem.printers[static_cast<size_t>(m_nozzles[static_cast<size_t>(n)].printer)].nozzleRemoval;
    return result;
}

bool Minutes::nothingMoves() const {
    if (m_now <= m_lastBorder || m_startedNow) return false;
    return std::none_of(m_bays.begin(), m_bays.end(), [](const Bay& bay) {
        return bay.preparation.active || (!bay.over() && bay.life[bay.at].active && bay.life[bay.at].end < never);
    });
}

bool Minutes::noNozzleAnyMore(const InLine& e) const {
    for (size_t i = 0; i < 2; ++i) {
        const NozzleNeed& need = changeOf(e).nozzle[i];
        if (need.exchange && std::none_of(m_nozzles.begin(), m_nozzles.end(), [&](const NozzlePiece& n) {
                return serves(n, need, variantOf(e).life[i]);
            }))
            return true;
    }
    return false;
}

void Minutes::dropAll(int p) {
    for (const Place& place : m_order[static_cast<size_t>(p)]) toDrop.insert(place.job);
}

// "A job with a segment that never finds enough crew for long enough is not placed." "When nothing more can happen while
// printers wait for nozzles, one waiting job is not placed: the last in line among those that no nozzle can serve any more,
// else the last in line; the timetable is computed anew without it."
void Minutes::decideDrop() {
    std::vector<InLine> forNozzles;
    std::set<int> waiting;
    for (const InLine& e : line())
        if (!e.behind && takes(e) && !choose(e)) {
            forNozzles.push_back(e);
            waiting.insert(e.printer);
        }
    std::vector<int> givenStuck;
    for (int p = 0; p < static_cast<int>(m_bays.size()); ++p) {
        const Bay& bay = m_bays[static_cast<size_t>(p)];
        if (bay.over() || waiting.contains(p)) continue;
        const TimedJob& job = bay.jobs[bay.life[bay.at].job];
        if (job.change) toDrop.insert(job.job);
        else givenStuck.push_back(p);
    }
    if (!toDrop.empty()) return;
    // "Running jobs stay"; what comes after them never can.
    for (const int p : givenStuck) {
        dropAll(p);
        for (const TimedJob& given : m_bays[static_cast<size_t>(p)].jobs)
            if (given.job >= 0 && given.complete >= never && !given.change) neverOut.insert(given.job);
    }
    if (!toDrop.empty() || forNozzles.empty()) return;
    InLine last = forNozzles.back();
    for (const InLine& e : forNozzles)
        if (noNozzleAnyMore(e)) last = e;
    if (!noNozzleAnyMore(last)) last = forNozzles.back();
    const Bay& bay = m_bays[static_cast<size_t>(last.printer)];
    toDrop.insert(bay.jobs[bay.life[bay.at].job].job);
}

bool Minutes::run() {
    for (m_now = 0; m_now < m_horizon; ++m_now) {
        m_startedNow = false;
        for (int p = 0; p < static_cast<int>(m_bays.size()); ++p) ends(p);
        for (int p = 0; p < static_cast<int>(m_bays.size()); ++p) startsAlone(p);
        readLine();
        if (std::all_of(m_bays.begin(), m_bays.end(), [](const Bay& bay) { return bay.over(); })) return true;
        if (!nothingMoves()) continue;
        decideDrop();
        return toDrop.empty();
    }
    return true;
}

std::vector<std::vector<TimedJob>> Minutes::result() const {
    std::vector<std::vector<TimedJob>> result;
    for (const Bay& bay : m_bays) {
        result.emplace_back();
        // What prints and never comes out is shown without completion; a session that is stuck before its print is not.
        for (const TimedJob& job : bay.jobs)
            if (job.complete < never || job.printStart < never) result.back().push_back(job);
    }
    return result;
}

void addJob(Totals& totals, const Problem& problem, const TimedJob& job) {
    if (job.complete >= never) return; // a running job that never comes out is not placed: it adds nothing
    totals.turnaround += job.turnaround;
    // "`changeover` = minutes of the changeovers' internal segments, without waits for crew, preparation and part removal."
    totals.changeover += job.changeoverMinutes;
    // "`hands_on_minutes` = Σ people × minutes."
    for (const TimedWork& w : job.work) totals.handsOn += w.work->people * (w.end - w.start);
    if (job.change && job.change->cleanOut) ++totals.cleanOuts;
    if (job.job < 0) return;
    const JobNumbers& numbers = problem.jobs[static_cast<size_t>(job.job)];
    totals.makespan = std::max(totals.makespan, job.complete);
    const Minute late = numbers.due ? std::max<Minute>(0, job.complete - *numbers.due) : 0;
    totals.lateJobs += late > 0 ? 1 : 0;
    totals.weightedTardiness += numbers.lateCostPerHour * late;
    // "Σ late-cost·max(0, lateness) + Σ hourly-rate·(print + turnaround) + Σ holding-cost-per-hour × hours from release (or
    // `now`) to completion + purged material + clean-out consumables", "rounded per term".
    totals.cost += roundedPerHour(numbers.lateCostPerHour, late);
    totals.cost += roundedPerHour(problem.printers[static_cast<size_t>(job.printer)].hourlyRate,
                                  job.printEnd - job.printStart + job.turnaround);
    totals.cost += roundedPerHour(numbers.holdingCostPerHour,
                                  std::max<Minute>(0, job.complete - numbers.release.value_or(0)));
    if (job.change) totals.cost += job.change->material;
}

} // namespace

Timetable minuteTwin(const Problem& problem, Changes& changes, const Orders& orders) {
    std::set<int> without;
    while (true) {
        Minutes minutes(problem, changes, orders, without);
        if (!minutes.run()) {
            without.insert(minutes.toDrop.begin(), minutes.toDrop.end());
            without.insert(minutes.impossible.begin(), minutes.impossible.end());
            continue;
        }
        Timetable result;
        result.printers = minutes.result();
        std::set<int> notPlaced = without;
        notPlaced.insert(minutes.impossible.begin(), minutes.impossible.end());
        notPlaced.insert(minutes.neverOut.begin(), minutes.neverOut.end());
        notPlaced.insert(orders.leftOut.begin(), orders.leftOut.end());
        for (const int job : notPlaced) result.notPlaced.push_back({job, {}});
        result.totals.notPlaced = static_cast<int>(notPlaced.size());
        for (const auto& printer : result.printers)
            for (const TimedJob& job : printer) addJob(result.totals, problem, job);
        return result;
    }
}

} // namespace interlude::tests
