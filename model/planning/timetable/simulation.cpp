#include "model/planning/timetable/simulation.h"

#include <algorithm>
#include <cassert>

namespace interlude::planning {

namespace {
/// Internal segments only, as long as they take in the end.
Minute changeoverMinutes(const TimedJob& job) {
    Minute sum = 0;
    for (const TimedWork& w : job.work)
        if (w.work->kind == Kind::HandsOn || w.work->kind == Kind::Waiting) sum += w.end - w.start;
    return sum;
}
} // namespace

Simulation::Simulation(const Problem& problem, Changes& changes, Memory memory)
    : m_problem(problem), m_changes(changes), m_crew(problem), m_nozzles(problem), m_memory(memory) {}
Simulation::~Simulation() = default;

const VariantNumbers& Simulation::variant(const Place& place) const {
    return m_problem.jobs[static_cast<std::size_t>(place.job)].variants[static_cast<std::size_t>(place.variant)];
}

void Simulation::push(Minute at, bool isStart, int printer, Event event) {
    m_events.push_back({at, isStart, printer, event});
    std::push_heap(m_events.begin(), m_events.end(), std::greater<>());
}

void Simulation::begin(const Orders& orders, const std::vector<char>& without) {
    m_order = orders.printers;
    for (auto& list : m_order)
        std::erase_if(list, [&](const Place& p) { return without[static_cast<std::size_t>(p.job)] != 0; });
    m_crew.clear();
    m_nozzles.reset();
    m_events.clear();
    m_impossible.clear();
    m_neverOut.clear();
    m_lines.assign(m_problem.printers.size(), {});
    m_idle.assign(m_problem.printers.size(), 0);
    m_timed.resize(m_problem.printers.size());
    for (auto& list : m_timed) list.clear();
    m_totals = {};
    m_startsSince = 0;
    for (std::size_t p = 0; p < m_lines.size(); ++p) {
        m_lines[p].printer = static_cast<int>(p);
        beginPrinter(m_lines[p]);
    }
}

void Simulation::beginPrinter(Line& line) {
    const PrinterNumbers& p = m_problem.printers[static_cast<std::size_t>(line.printer)];
    line.state = p.state;
    line.sessionComes = p.session;
    if (!p.partLies) {
        if (!p.session) fixNext(line, 0);
        return changeOver(line, 0);
    }
    TimedJob running;
    running.job = p.runningJob;
    running.variant = p.runningVariant;
    running.running = true;
    running.printer = line.printer;
    running.printStart = p.runningStart;
    running.printEnd = p.runningEnd;
    running.complete = never;
    remember(std::move(running));
    line.previous = 0;
    line.previousEnd = std::max<Minute>(p.runningEnd, 0);
    // What comes after a session is fixed when its print starts, or when it ends without one.
    if (!p.session) fixNext(line, 0);
    if (p.runningEnd <= 0) return removePart(line, 0);
    line.busy = true;
    push(p.runningEnd, false, line.printer, Event::PrintEnds);
}

void Simulation::beginSession(Line& line, Minute at) {
    const PrinterNumbers& p = m_problem.printers[static_cast<std::size_t>(line.printer)];
    line.sessionComes = false;
    line.sessionPart = true;
    line.removing = false;
    line.busy = false;
    line.coming = {};
    line.coming.job = p.sessionJob;
    line.coming.variant = p.sessionVariant;
    line.coming.session = true;
    line.coming.printer = line.printer;
    line.job = {p.sessionJob, p.sessionVariant};
    line.works = &p.sessionWork;
    line.at = 0;
    line.prepared = Line::Prepared::Done;
    goOn(line, at);
}

/// The sequence is fixed when the previous print starts: what is mounted then decides.
void Simulation::fixNext(Line& line, Minute at) {
    auto& order = m_order[static_cast<std::size_t>(line.printer)];
    line.change = nullptr;
    line.preparation = nullptr;
    line.prepared = Line::Prepared::Done;
    line.preparedAt = at;
    line.orderEnded = line.next >= order.size();
    if (line.orderEnded) return;
    line.job = order[line.next++];
    const VariantNumbers& v = variant(line.job);
    const auto p = static_cast<std::size_t>(line.printer);
    if (v.print[p] < 0) {
        m_impossible.push_back({line.job.job, v.whyNot.size() > p ? v.whyNot[p] : std::string()});
        return;
    }
    const std::array<bool, 2> worn = m_problem.scarceNozzles ? m_nozzles.worn(line.printer, v) : std::array<bool, 2>{};
    const Change& change = m_changes.from(line.printer, line.state, line.job.job, line.job.variant, worn);
    if (!change.possible) {
        m_impossible.push_back({line.job.job, change.reason});
        return;
    }
    line.change = &change;
    line.coming = {};
    line.coming.job = line.job.job;
    line.coming.variant = line.job.variant;
    line.coming.change = &change;
    line.coming.printer = line.printer;
    if (!change.preparation) return;
    line.preparation = &*change.preparation;
    line.prepared = Line::Prepared::Ready;
    line.preparationReady = at;
    if (!needsLine(line, *line.preparation)) {
        const Minute start = outsideDowntime(at, line.preparation->minutes, m_problem.printers[p].down);
        if (start >= never) return;
        line.prepared = Line::Prepared::Running;
        line.coming.work.push_back({line.preparation, start, start + line.preparation->minutes, {-1, -1}, {-1, -1}});
        push(start + line.preparation->minutes, false, line.printer, Event::PreparationEnds);
    }
}

void Simulation::removePart(Line& line, Minute at) {
    const std::vector<Work>& session = m_problem.printers[static_cast<std::size_t>(line.printer)].sessionWork;
    // An open session takes the part out itself where its work begins with that.
    if (line.sessionComes && !session.empty() && session.front().kind == Kind::PartRemoval) return beginSession(line, at);
    line.removing = true;
    line.works = &m_changes.removal(line.printer, line.state);
    line.at = 0;
    line.ready = at;
    goOn(line, at);
}

void Simulation::changeOver(Line& line, Minute at) {
    if (line.sessionComes) return beginSession(line, at);
    line.removing = false;
    line.busy = false;
    line.at = 0;
    line.ready = at;
    if (!line.change) {
        line.finished = true;
        line.works = nullptr;
        m_idle[static_cast<std::size_t>(line.printer)] = 1;
        return;
    }
    line.works = &line.change->work;
    goOn(line, at);
}

/// Looks at the piece at `at`: it becomes ready, or nothing is left of this part.
void Simulation::goOn(Line& line, Minute at) {
    const bool more = line.at < line.works->size();
    if (line.sessionPart && (!more || (*line.works)[line.at].kind != Kind::PartRemoval)) partIsOut(line, at);
    if (more) return pieceReady(line, at);
    if (!line.removing) return allDone(line, at);
    partIsOut(line, at);
    changeOver(line, at);
}

/// True while the work at hand is that of the previous job's part.
bool Simulation::takesPartOut(const Line& line) const {
    return line.previous >= 0 && (line.removing || line.sessionPart);
}

void Simulation::partIsOut(Line& line, Minute at) {
    if (line.previous < 0) return;
    TimedJob& job = m_timed[static_cast<std::size_t>(line.printer)][static_cast<std::size_t>(line.previous)];
    job.complete = at;
    if (m_memory == Memory::LastJobs) addUp(job);
    line.previous = -1;
}

bool Simulation::takesNozzles(const Line& line) const {
    if (!m_problem.scarceNozzles || line.removing || !line.change) return false;
    const auto& n = line.change->nozzle;
    if (!(n[0].exchange && n[0].type >= 0) && !(n[1].exchange && n[1].type >= 0)) return false;
    // Both are taken at the first mounting; where no piece says that it mounts, at the first piece.
    const auto& works = line.change->work;
    std::size_t first = 0;
    for (std::size_t i = works.size(); i-- > 0;)
        if (works[i].mounts) first = i;
    return line.at == first;
}

bool Simulation::needsLine(const Line& line, const Work& work) const {
    return work.people > 0 || (!work.tools.empty() && work.kind != Kind::Waiting) ||
           (&work != line.preparation && takesNozzles(line));
}

void Simulation::pieceReady(Line& line, Minute at) {
    line.ready = at;
    line.busy = false;
    const Work& work = (*line.works)[line.at];
    const bool first = !line.removing && line.at == 0 && !line.sessionPart;
    if (first && line.prepared != Line::Prepared::Done) return;
    if (needsLine(line, work)) return;
    const auto& down = m_problem.printers[static_cast<std::size_t>(line.printer)].down;
    const Minute start = outsideDowntime(at, work.minutes, down);
    if (start >= never) return; // stands in line for ever
    workOwner(line).work.push_back({&work, start, start + work.minutes, {-1, -1}, {-1, -1}});
    line.busy = true;
    push(start + work.minutes, false, line.printer, Event::WorkEnds);
}

TimedJob& Simulation::workOwner(Line& line) {
    if (!takesPartOut(line)) return line.coming;
    return m_timed[static_cast<std::size_t>(line.printer)][static_cast<std::size_t>(line.previous)];
}

/// The changeover is done: the print begins once its job is released and no downtime is in the way.
void Simulation::allDone(Line& line, Minute at) {
    line.busy = false;
    if (!line.sessionPart && line.prepared != Line::Prepared::Done) return; // nothing but the preparation is left
    line.coming.changeoverDone = at;
    if (line.coming.job < 0) { // a session without a job: only the setup
        line.sessionPart = false;
        if (m_problem.scarceNozzles) m_nozzles.mountTaken(line.printer);
        line.state = m_problem.printers[static_cast<std::size_t>(line.printer)].sessionState;
        line.coming.changeoverMinutes = changeoverMinutes(line.coming);
        line.coming.complete = at;
        if (m_memory == Memory::LastJobs) addUp(line.coming);
        remember(std::move(line.coming));
        fixNext(line, at);
        return changeOver(line, at);
    }
    const JobNumbers& job = m_problem.jobs[static_cast<std::size_t>(line.coming.job)];
    const Minute length = variant(line.job).print[static_cast<std::size_t>(line.printer)];
    const Minute start = outsideDowntime(std::max(at, job.release.value_or(0)), length,
                                         m_problem.printers[static_cast<std::size_t>(line.printer)].down);
    if (start >= never) return;
    line.busy = true;
    push(start, true, line.printer, Event::PrintStarts);
}

void Simulation::printStarts(Line& line, Minute at) {
    const auto p = static_cast<std::size_t>(line.printer);
    const JobNumbers& job = m_problem.jobs[static_cast<std::size_t>(line.coming.job)];
    const VariantNumbers& v = variant(line.job);
    TimedJob& t = line.coming;
    t.printStart = at;
    t.printEnd = at + v.print[p];
    t.complete = never; // until its part is out
    t.changeoverMinutes = changeoverMinutes(t);
    const Minute done = std::max(t.changeoverDone, line.previousEnd);
    const Minute unreleased = std::max<Minute>(0, std::min(at, job.release.value_or(0)) - done);
    t.turnaround = at - line.previousEnd - unreleased;
    if (m_problem.scarceNozzles) m_nozzles.print(line.printer, t.change, v);
    line.state = line.sessionPart ? m_problem.printers[p].sessionState : line.change->next;
    line.sessionPart = false;
    line.previousEnd = t.printEnd;
    remember(std::move(t));
    line.previous = static_cast<int>(m_timed[p].size()) - 1;
    ++m_startsSince;
    push(line.previousEnd, false, line.printer, Event::PrintEnds);
    fixNext(line, at);
    line.busy = true;
}

void Simulation::pieceEnds(Line& line, Minute at) {
    const Work& work = (*line.works)[line.at];
    TimedWork& timed = workOwner(line).work.back();
    if (m_problem.scarceNozzles && !takesPartOut(line))
        for (int position = 0; position < 2; ++position)
            if (work.removes[static_cast<std::size_t>(position)])
                timed.freed[static_cast<std::size_t>(position)] = m_nozzles.remove(line.printer, position);
    ++line.at;
    goOn(line, at);
}

void Simulation::happen(const Timed& e) {
    Line& line = m_lines[static_cast<std::size_t>(e.printer)];
    switch (e.event) {
    case Event::WorkEnds: return pieceEnds(line, e.at);
    case Event::PrintEnds: return removePart(line, e.at);
    case Event::PrintStarts: return printStarts(line, e.at);
    case Event::PreparationEnds:
        line.prepared = Line::Prepared::Done;
        line.preparedAt = e.at;
        // The printer may have been waiting for it.
        if (line.works && !line.removing && !line.busy && line.change && line.works == &line.change->work && line.at == 0)
            goOn(line, e.at);
        return;
    }
}

int Simulation::lateJobOf(const Line& line, bool preparation) const {
    if (!preparation && takesPartOut(line))
        return m_timed[static_cast<std::size_t>(line.printer)][static_cast<std::size_t>(line.previous)].job;
    return line.coming.job;
}

void Simulation::collect() {
    m_waiting.clear();
    const auto lateCost = [&](int job) {
        return job < 0 ? Cents(0) : m_problem.jobs[static_cast<std::size_t>(job)].lateCostPerHour;
    };
    for (const Line& line : m_lines) {
        if (line.finished) continue;
        const bool printerWaits = !line.busy && line.works != nullptr && !line.removing && line.at == 0 &&
                                  line.change && line.works == &line.change->work;
        if (line.prepared == Line::Prepared::Ready) {
            Waiting w{!printerWaits, printerWaits ? line.ready : line.preparationReady,
                      lateCost(lateJobOf(line, true)), line.printer, true};
            m_waiting.push_back(w);
        }
        if (line.busy || !line.works || line.at >= line.works->size()) continue;
        const bool first = printerWaits && !line.sessionPart;
        if (first && line.prepared != Line::Prepared::Done) continue;
        m_waiting.push_back({false, line.ready, lateCost(lateJobOf(line, false)), line.printer, false});
    }
    std::sort(m_waiting.begin(), m_waiting.end(), [](const Waiting& a, const Waiting& b) {
        return std::tuple(a.late, a.ready, -a.lateCost, a.printer, a.preparation) <
               std::tuple(b.late, b.ready, -b.lateCost, b.printer, b.preparation);
    });
}

/// True when it has begun now.
bool Simulation::tryServe(const Waiting& w, Minute now) {
    Line& line = m_lines[static_cast<std::size_t>(w.printer)];
    const Work& work = w.preparation ? *line.preparation : (*line.works)[line.at];
    NozzlePool::Taken taken;
    if (!w.preparation && takesNozzles(line)) {
        const auto choice = m_nozzles.choose(*line.change, variant(line.job), line.printer, m_idle);
        if (!choice) return false;
        taken = *choice;
    }
    const Minute length = work.minutes + taken.longer;
    const auto& down = m_problem.printers[static_cast<std::size_t>(line.printer)].down;
    const Minute start = m_crew.earliest(now, length, work.people, work.tools, down);
    if (start >= never) return false;
    if (start > now) m_nextSlot = std::min(m_nextSlot, start);
    m_crew.add({start, start + length, work.people, work.tools.empty() ? nullptr : &work.tools});
    if (start != now) return false;
    if (w.preparation) {
        line.prepared = Line::Prepared::Running;
        line.coming.work.insert(line.coming.work.begin(), {&work, now, now + length, {-1, -1}, {-1, -1}});
        push(now + length, false, line.printer, Event::PreparationEnds);
        return true;
    }
    m_nozzles.take(taken, line.printer);
    workOwner(line).work.push_back({&work, now, now + length, taken.nozzle, {-1, -1}});
    line.busy = true;
    push(now + length, false, line.printer, Event::WorkEnds);
    return true;
}

/// True when all in line need people and everybody is at work: then nothing starts before somebody gets free.
bool Simulation::nobodyForAny(Minute now) const {
    if (m_waiting.empty() || m_crew.freeAt(now) > 0) return false;
    return std::all_of(m_waiting.begin(), m_waiting.end(), [&](const Waiting& w) {
        const Line& line = m_lines[static_cast<std::size_t>(w.printer)];
        return (w.preparation ? *line.preparation : (*line.works)[line.at]).people > 0;
    });
}

/// Reads the line from its head until one starts; false when none does.
bool Simulation::serveHead(Minute now) {
    collect();
    m_nextSlot = never;
    if (nobodyForAny(now)) {
        m_nextSlot = m_crew.nextChange(now); // an end of work is an event anyway
        return false;
    }
    const std::size_t running = m_crew.mark();
    for (const Waiting& w : m_waiting) {
        const std::size_t before = m_crew.mark();
        if (!tryServe(w, now)) continue;
        // Only what runs stays; the places held are given anew.
        const Use started = m_crew.at(before);
        m_crew.backTo(running);
        m_crew.add(started);
        return true;
    }
    m_crew.backTo(running);
    return false;
}

void Simulation::serve(Minute now) {
    m_crew.forgetBefore(now);
    while (serveHead(now)) {}
}

/// Nothing can begin before the next event or the first place held: in between the line would be read with the same answer.
Minute Simulation::nextDecision() const {
    return std::min(m_nextSlot, m_events.empty() ? never : m_events.front().at);
}

void Simulation::remember(TimedJob&& job) {
    auto& list = m_timed[static_cast<std::size_t>(job.printer)];
    if (m_memory == Memory::LastJobs) list.clear(); // the part of the one before is out
    list.push_back(std::move(job));
}

std::vector<NotPlaced> Simulation::run(const Orders& orders, const std::vector<char>& without) {
    begin(orders, without);
    return play(0);
}

std::vector<NotPlaced> Simulation::play(Minute now) {
    m_ended = false;
    for (;;) {
        if (!m_impossible.empty()) return m_impossible;
        // Ends first; a start at this minute may bring another end or start at this minute only by a print of no length.
        while (!m_events.empty() && m_events.front().at <= now) {
            const Timed e = m_events.front();
            std::pop_heap(m_events.begin(), m_events.end(), std::greater<>());
            m_events.pop_back();
            happen(e);
        }
        if (!m_impossible.empty()) return m_impossible;
        if (m_ended) return {};
        serve(now);
        const Minute next = nextDecision();
        if (next >= never) break;
        now = next;
        if (m_kept && m_startsSince >= m_everyStarts) snap(now);
    }
    const bool all = std::all_of(m_lines.begin(), m_lines.end(), [](const Line& line) { return line.finished; });
    return all ? std::vector<NotPlaced>() : stuck();
}

/// A printer that cannot go on with what runs or is in session: what was to come after it has no place.
void Simulation::giveUp(const Line& line, std::vector<NotPlaced>& out) {
    const auto p = static_cast<std::size_t>(line.printer);
    const std::string reason = whyStuck(line);
    const auto given = [&](int job) {
        if (job >= 0) m_neverOut.push_back({job, reason});
    };
    for (const TimedJob& job : m_timed[p])
        if (job.complete >= never) given(job.job);
    if (line.sessionComes || line.sessionPart) given(m_problem.printers[p].sessionJob);
    for (const Place& place : m_order[p]) out.push_back({place.job, reason});
}

std::string Simulation::whyStuck(const Line& line) const {
    const auto& down = m_problem.printers[static_cast<std::size_t>(line.printer)].down;
    if (!down.empty() && down.back().to >= never) return "the printer is down, and nobody has said until when";
    if (line.busy || !line.works) return "what prints there never ends";
    const bool prepares = line.prepared == Line::Prepared::Ready && !takesPartOut(line);
    if (!prepares && line.at >= line.works->size()) return "the print never finds a time to start";
    const Work& work = prepares ? *line.preparation : (*line.works)[line.at];
    return std::string("never enough people ") + (work.tools.empty() ? "" : "and tools ") +
           "on shift for long enough: " + std::to_string(work.people) + " for " + std::to_string(work.minutes) +
           " minutes";
}

/// Nothing more can happen and some printer still waits: for people who never come, or for a nozzle.
std::vector<NotPlaced> Simulation::stuck() {
    int last = -1, lastHopeless = -1;
    std::vector<char> forNozzle(m_lines.size(), 0);
    for (const Waiting& w : m_waiting) {
        const Line& line = m_lines[static_cast<std::size_t>(w.printer)];
        if (w.preparation || !takesNozzles(line) ||
            m_nozzles.choose(*line.change, variant(line.job), line.printer, m_idle))
            continue;
        forNozzle[static_cast<std::size_t>(w.printer)] = 1;
        last = line.job.job;
        if (!m_nozzles.servable(*line.change, variant(line.job))) lastHopeless = last;
    }
    std::vector<NotPlaced> out;
    std::vector<const Line*> given;
    for (const Line& line : m_lines) {
        if (line.finished || forNozzle[static_cast<std::size_t>(line.printer)] != 0) continue;
        const auto& timed = m_timed[static_cast<std::size_t>(line.printer)];
        // The job whose part is still in the printer, else the one that comes.
        const TimedJob* owner = line.previous >= 0 ? &timed[static_cast<std::size_t>(line.previous)] : &line.coming;
        if (owner->change) out.push_back({owner->job, whyStuck(line)});
        else given.push_back(&line);
    }
    // What runs may still find its people once these are gone.
    if (!out.empty()) return out;
    for (const Line* line : given) giveUp(*line, out);
    if (!out.empty()) return out;
    if (lastHopeless >= 0) return {{lastHopeless, "no nozzle of the wanted type and melt family has enough life left"}};
    if (last >= 0) return {{last, "the nozzle that it needs never becomes free"}};
    return {};
}

} // namespace interlude::planning
