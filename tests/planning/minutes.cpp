// A printer's life from minute to minute: what comes, what ends, what starts by itself.

#include "tests/planning/minutes.h"

#include <algorithm>

namespace interlude::tests {

Minutes::Minutes(const Problem& problem, Changes& changes, const Orders& orders, const std::set<int>& without)
    : m_problem(problem), m_changes(changes), m_nozzles(problem.nozzles) {
    for (const auto& order : orders.printers) {
        m_order.emplace_back();
        for (const Place& place : order)
            if (!without.contains(place.job))
                m_order.back().push_back(place);
    }
    for (const CrewFrom& c : problem.crew)
        m_lastBorder = std::max(m_lastBorder, c.from);
    for (const JobNumbers& j : problem.jobs)
        m_lastBorder = std::max(m_lastBorder, j.release.value_or(0));
    for (const PrinterNumbers& p : problem.printers)
        for (const Span& s : p.down)
            m_lastBorder = std::max(m_lastBorder, s.to >= never ? s.from : s.to);
    m_horizon = m_lastBorder + 3000;
    for (Minute t = 0; t < m_horizon; ++t) {
        int crew = 0;
        for (const CrewFrom& c : problem.crew)
            if (c.from <= t)
                crew = c.crew;
        m_crewAll.push_back(crew);
    }
    m_bays.resize(problem.printers.size());
    for (int p = 0; p < static_cast<int>(m_bays.size()); ++p)
        begin(p);
}

const JobNumbers* Minutes::jobOf(const TimedJob& job) const {
    return job.job < 0 ? nullptr : &m_problem.jobs[static_cast<size_t>(job.job)];
}

void Minutes::addWorks(int p, const std::vector<Work>& work, size_t job) {
    for (const Work& w : work)
        m_bays[static_cast<size_t>(p)].life.push_back({Item::Task, job, &w, 0, false, 0, 0});
}

// "A printer's life is: part removal of the previous print (ready at its end), the changeover's segments in order, the
// print, the next part removal."
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
        // A part that lies there has ended before `now`, which was not the planner's doing: turnaround begins "from
        // `now`, if idle".
        job.printEnd = printer.runningEnd;
        bay.lastPrintEnd = std::max<Minute>(0, printer.runningEnd);
        bay.jobs.push_back(job);
        bay.life.push_back({Item::Print, 0, nullptr, 0, true, bay.lastPrintEnd, 0});
        if (!sessionRemoves)
            addWorks(p, m_changes.removal(p, printer.state), 0);
    }
    if (printer.session)
        beginSession(p, session);
    // A session has chosen its nozzles already: they are free for nobody else.
    bay.taken = printer.sessionNozzles;
    for (size_t i = 0; i < 2; ++i) {
        if (bay.taken[i] < 0)
            continue;
        NozzlePiece& nozzle = m_nozzles[static_cast<size_t>(bay.taken[i])];
        nozzle.printer = p;
        nozzle.position = static_cast<int>(i);
    }
    // What comes after a session is fixed when that starts its print, or ends without one; else at once.
    if (!printer.session)
        fixNext(p);
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
    bay.life.push_back({Item::Print, bay.jobs.size() - 1, nullptr, variant.print[static_cast<size_t>(p)], false, 0, 0});
    addWorks(p, m_changes.removal(p, bay.state), bay.jobs.size() - 1);
}

// "Too little life left for the job is refused": then the nozzle is exchanged. "`no-history` is never counted as zero."
std::array<bool, 2> Minutes::worn(int p, const VariantNumbers& variant) const {
    std::array<bool, 2> result{};
    if (!m_problem.scarceNozzles)
        return result;
    for (size_t i = 0; i < 2; ++i) {
        const int n = m_bays[static_cast<size_t>(p)].mounted[i];
        if (n < 0)
            continue;
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
        const auto& variant =
            m_problem.jobs[static_cast<size_t>(place.job)].variants[static_cast<size_t>(place.variant)];
        if (variant.print[static_cast<size_t>(p)] >= 0) {
            const Change& change = m_changes.from(p, bay.state, place.job, place.variant, worn(p, variant));
            if (change.possible)
                return addPlanned(p, place, change);
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
    // "External steps are one block, the preparation, per changeover: ready when the printer's previous print starts
    // (or at once)… No external steps, no preparation."
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
    if (bay.over() || !bay.life[bay.at].active || bay.life[bay.at].end != m_now)
        return;
    Item& item = bay.life[bay.at];
    item.active = false;
    if (item.what == Item::Task)
        endTask(p, item);
    else
        bay.lastPrintEnd = m_now;
    ++bay.at;
    bay.ready = m_now;
    // "A job is complete when its part is out."
    const bool more = std::any_of(bay.life.begin() + static_cast<std::ptrdiff_t>(bay.at), bay.life.end(),
                                  [&](const Item& i) { return i.job == item.job; });
    if (!more)
        bay.jobs[item.job].complete = m_now;
}

// "A removed nozzle is free when its removing segment ends."
void Minutes::endTask(int p, Item& item) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    for (size_t i = 0; i < 2; ++i) {
        if (!m_problem.scarceNozzles || !item.work->removes[i] || bay.mounted[i] < 0)
            continue;
        NozzlePiece& nozzle = m_nozzles[static_cast<size_t>(bay.mounted[i])];
        nozzle.printer = -1;
        bay.jobs[item.job].work[item.timed].freed[i] = bay.mounted[i];
        bay.mounted[i] = -1;
    }
}

// "Nothing of a printer overlaps its downtime: it starts afterwards."
bool Minutes::down(int p, Minute from, Minute length) const {
    for (const Span& s : m_problem.printers[static_cast<size_t>(p)].down)
        if (from < s.to && s.from < from + length)
            return true;
    return false;
}

// "A waiting segment and a print run at any hour." "The print needs changeover done and job released."
void Minutes::startsAlone(int p) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    if (bay.over() || bay.life[bay.at].active)
        return;
    if (bay.life[bay.at].what == Item::SetupEnd) {
        TimedJob& setup = bay.jobs[bay.life[bay.at++].job];
        setup.changeoverDone = setup.complete = bay.ready;
        setup.printStart = 0; // it has none
        mountTaken(bay);
        fixNext(p);
        if (bay.over())
            return;
    }
    if (bay.life[bay.at].what == Item::Gate) {
        if (!bay.preparation.done) {
            // "…behind all internal segments until its printer stands waiting for it; then ready since then."
            if (!bay.preparation.stoodFor)
                bay.preparation.stoodSince = bay.ready;
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
        if (m_now < numbers.release.value_or(m_now) || down(p, m_now, item.minutes))
            return;
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

void Minutes::mountTaken(Bay& bay) {
    for (size_t i = 0; i < 2; ++i) {
        if (bay.taken[i] < 0)
            continue;
        if (bay.mounted[i] >= 0)
            m_nozzles[static_cast<size_t>(bay.mounted[i])].printer = -1;
        bay.mounted[i] = bay.taken[i];
    }
    bay.taken = {-1, -1};
}

void Minutes::startPrint(int p, Item& item) {
    Bay& bay = m_bays[static_cast<size_t>(p)];
    TimedJob& job = bay.jobs[item.job];
    const JobNumbers& numbers = *jobOf(job);
    item.active = true;
    item.end = m_now + item.minutes;
    job.printStart = m_now;
    job.printEnd = item.end;
    // Turnaround: "printer time from one print's end (or from `now`, if idle) to the next print's start, less the time
    // in which the changeover is done and the job not yet released".
    const Minute unreleased = std::max<Minute>(0, numbers.release.value_or(0) - job.changeoverDone);
    job.turnaround = m_now - bay.lastPrintEnd - unreleased;
    mountTaken(bay);
    // "Life is deducted at print start."
    const VariantNumbers& variant = numbers.variants[static_cast<size_t>(job.variant)];
    for (size_t i = 0; i < 2; ++i) {
        if (!m_problem.scarceNozzles || bay.mounted[i] < 0)
            continue;
        NozzlePiece& nozzle = m_nozzles[static_cast<size_t>(bay.mounted[i])];
        if (nozzle.life)
            *nozzle.life -= variant.life[i];
        // "A nozzle serves one melt family once used."
        if (nozzle.family < 0 && job.change)
            nozzle.family = job.change->nozzle[i].family;
    }
    m_startedNow = true;
    bay.tookNozzles = false;
    fixNext(p); // may move `job` and `item`
}

bool Minutes::run() {
    for (m_now = 0; m_now < m_horizon; ++m_now) {
        m_startedNow = false;
        for (int p = 0; p < static_cast<int>(m_bays.size()); ++p)
            ends(p);
        for (int p = 0; p < static_cast<int>(m_bays.size()); ++p)
            startsAlone(p);
        readLine();
        if (std::all_of(m_bays.begin(), m_bays.end(), [](const Bay& bay) { return bay.over(); }))
            return true;
        if (!nothingMoves())
            continue;
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
            if (job.complete < never || job.printStart < never)
                result.back().push_back(job);
    }
    return result;
}

} // namespace interlude::tests
