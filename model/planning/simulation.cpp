#include "model/planning/simulation.h"

#include <algorithm>
#include <cassert>

namespace interlude::planning {

namespace {
const std::vector<int> noTools;
}

Simulation::Simulation(const Problem& problem, Changes& changes)
    : m_problem(problem), m_changes(changes), m_crew(problem), m_nozzles(problem) {}

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
    m_lines.assign(m_problem.printers.size(), {});
    m_idle.assign(m_problem.printers.size(), 0);
    m_timed.resize(m_problem.printers.size());
    for (auto& list : m_timed) list.clear();
    for (std::size_t p = 0; p < m_lines.size(); ++p) {
        m_lines[p].printer = static_cast<int>(p);
        beginPrinter(m_lines[p]);
    }
}

void Simulation::beginPrinter(Line& line) {
    const PrinterNumbers& p = m_problem.printers[static_cast<std::size_t>(line.printer)];
    line.state = p.state;
    if (p.session) {
        line.sessionPart = true;
        line.busy = false;
        line.coming = {};
        line.coming.job = p.sessionJob;
        line.coming.variant = p.sessionVariant;
        line.coming.session = true;
        line.coming.printer = line.printer;
        line.job = {p.sessionJob, p.sessionVariant};
        line.works = &p.sessionWork;
        line.prepared = Line::Prepared::Done;
        return goOn(line, 0);
    }
    if (!p.partLies) {
        fixNext(line, 0);
        return changeOver(line, 0);
    }
    TimedJob running;
    running.job = p.runningJob;
    running.variant = p.runningVariant;
    running.running = true;
    running.printer = line.printer;
    running.printStart = p.runningStart;
    running.printEnd = p.runningEnd;
    m_timed[static_cast<std::size_t>(line.printer)].push_back(running);
    line.previous = 0;
    line.previousEnd = std::max<Minute>(p.runningEnd, 0);
    fixNext(line, 0);
    if (p.runningEnd <= 0) return removePart(line, 0);
    line.busy = true;
    push(p.runningEnd, false, line.printer, Event::PrintEnds);
}

/// The sequence is fixed when the previous print starts: what is mounted then decides.
void Simulation::fixNext(Line& line, Minute at) {
    auto& order = m_order[static_cast<std::size_t>(line.printer)];
    line.change = nullptr;
    line.preparation = nullptr;
    line.prepared = Line::Prepared::Done;
    line.preparedAt = at;
    if (line.next >= order.size()) return;
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
        line.prepared = Line::Prepared::Running;
        line.coming.work.push_back({line.preparation, start, start + line.preparation->minutes, {-1, -1}, {-1, -1}});
        push(start + line.preparation->minutes, false, line.printer, Event::PreparationEnds);
    }
}

void Simulation::removePart(Line& line, Minute at) {
    line.removing = true;
    line.works = &m_changes.removal(line.printer, line.state);
    line.at = 0;
    line.ready = at;
    goOn(line, at);
}

void Simulation::changeOver(Line& line, Minute at) {
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
    if (line.at < line.works->size()) return pieceReady(line, at);
    if (line.removing) {
        TimedJob& out = m_timed[static_cast<std::size_t>(line.printer)][static_cast<std::size_t>(line.previous)];
        out.complete = at;
        line.previous = -1;
        return changeOver(line, at);
    }
    allDone(line, at);
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
    workOwner(line).work.push_back({&work, start, start + work.minutes, {-1, -1}, {-1, -1}});
    line.busy = true;
    push(start + work.minutes, false, line.printer, Event::WorkEnds);
}

TimedJob& Simulation::workOwner(Line& line) {
    if (!line.removing) return line.coming;
    return m_timed[static_cast<std::size_t>(line.printer)][static_cast<std::size_t>(line.previous)];
}

/// The changeover is done: the print begins once its job is released and no downtime is in the way.
void Simulation::allDone(Line& line, Minute at) {
    line.busy = false;
    if (!line.sessionPart && line.prepared != Line::Prepared::Done) return; // nothing but the preparation is left
    line.coming.changeoverDone = at;
    if (line.coming.job < 0) { // a session without a job: only the setup
        line.sessionPart = false;
        line.state = m_problem.printers[static_cast<std::size_t>(line.printer)].sessionState;
        m_timed[static_cast<std::size_t>(line.printer)].push_back(line.coming);
        m_timed[static_cast<std::size_t>(line.printer)].back().complete = at;
        fixNext(line, at);
        return changeOver(line, at);
    }
    const JobNumbers& job = m_problem.jobs[static_cast<std::size_t>(line.coming.job)];
    const Minute length = variant(line.job).print[static_cast<std::size_t>(line.printer)];
    const Minute start = outsideDowntime(std::max(at, job.release.value_or(0)), length,
                                         m_problem.printers[static_cast<std::size_t>(line.printer)].down);
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
    for (const TimedWork& w : t.work)
        if (w.work->kind == Kind::HandsOn || w.work->kind == Kind::Waiting) t.changeoverMinutes += w.end - w.start;
    const Minute done = std::max(t.changeoverDone, line.previousEnd);
    const Minute unreleased = std::max<Minute>(0, std::min(at, job.release.value_or(0)) - done);
    t.turnaround = at - line.previousEnd - unreleased;
    if (m_problem.scarceNozzles && line.change) m_nozzles.print(line.printer, *line.change, v);
    line.state = line.sessionPart ? m_problem.printers[p].sessionState : line.change->next;
    line.sessionPart = false;
    line.previousEnd = t.printEnd;
    m_timed[p].push_back(std::move(t));
    line.previous = static_cast<int>(m_timed[p].size()) - 1;
    push(line.previousEnd, false, line.printer, Event::PrintEnds);
    fixNext(line, at);
    line.busy = true;
}

void Simulation::pieceEnds(Line& line, Minute at) {
    const Work& work = (*line.works)[line.at];
    TimedWork& timed = workOwner(line).work.back();
    if (m_problem.scarceNozzles && !line.removing)
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
    case Event::WaitStarts: return;
    }
}

int Simulation::lateJobOf(const Line& line, bool preparation) const {
    if (!preparation && line.removing)
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
    m_nozzles.mount(taken, line.printer);
    workOwner(line).work.push_back({&work, now, now + length, taken.nozzle, {-1, -1}});
    line.busy = true;
    push(now + length, false, line.printer, Event::WorkEnds);
    return true;
}

/// Reads the line from its head until one starts; false when none does.
bool Simulation::serveHead(Minute now) {
    collect();
    m_nextSlot = never;
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

std::vector<NotPlaced> Simulation::run(const Orders& orders, const std::vector<char>& without) {
    m_without = without;
    begin(orders, without);
    Minute now = 0;
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
        serve(now);
        const Minute next = nextDecision();
        if (next >= never) break;
        now = next;
    }
    return m_waiting.empty() ? std::vector<NotPlaced>() : stuck();
}

void Simulation::blame(std::vector<NotPlaced>& out, int job, const std::string& reason) const {
    if (job >= 0 && m_without[static_cast<std::size_t>(job)] == 0) out.push_back({job, reason});
}

/// A printer that cannot go on: what was to come there has no place.
void Simulation::blamePrinter(std::vector<NotPlaced>& out, const Line& line, const std::string& reason) const {
    if (line.sessionPart) blame(out, line.coming.job, reason);
    if (line.change) blame(out, line.job.job, reason);
    const auto& order = m_order[static_cast<std::size_t>(line.printer)];
    for (std::size_t i = line.next; i < order.size(); ++i) blame(out, order[i].job, reason);
}

/// Nothing more can happen and somebody still waits: for people who never come, or for a nozzle.
std::vector<NotPlaced> Simulation::stuck() {
    std::vector<NotPlaced> out;
    int last = -1, lastHopeless = -1;
    for (const Waiting& w : m_waiting) {
        const Line& line = m_lines[static_cast<std::size_t>(w.printer)];
        const int job = lateJobOf(line, w.preparation);
        if (!w.preparation && takesNozzles(line) &&
            !m_nozzles.choose(*line.change, variant(line.job), line.printer, m_idle)) {
            last = job;
            if (!m_nozzles.servable(*line.change, variant(line.job))) lastHopeless = job;
            continue;
        }
        const Work& work = w.preparation ? *line.preparation : (*line.works)[line.at];
        const std::string reason = "never enough people on shift for long enough: " + std::to_string(work.people) +
                                   " for " + std::to_string(work.minutes) + " minutes";
        const bool given = line.sessionPart ||
                           (line.removing && m_timed[static_cast<std::size_t>(line.printer)]
                                                    [static_cast<std::size_t>(line.previous)].running);
        if (given) blamePrinter(out, line, reason);
        else blame(out, job, reason);
    }
    if (!out.empty()) return out;
    if (lastHopeless >= 0) return {{lastHopeless, "no nozzle of the wanted type and melt family has enough life left"}};
    if (last >= 0) return {{last, "the nozzle that it needs never becomes free"}};
    return {};
}

} // namespace interlude::planning
