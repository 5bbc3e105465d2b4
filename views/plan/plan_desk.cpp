#include "views/plan/plan_desk.h"

#include "model/planning/plans/published.h"
#include "model/planning/yardsticks.h"

#include <QThread>

#include <algorithm>
#include <atomic>

namespace interlude {

using planning::Orders;

namespace {

/// A draft older than this is put on the present moment again when somebody looks.
constexpr Milliseconds staleAfter{5 * 60 * 1000};
/// So long the plan must have stayed as it is.
constexpr int yardsticksAfterMs = 200;

} // namespace

/// The worker of Improve: a problem and changes of its own, a flag to stop it, and the best orders that it has told.
struct PlanDesk::Search {
    planning::Problem problem;
    std::unique_ptr<planning::Changes> changes;
    planning::SearchOptions options;
    planning::SearchResult result;
    std::atomic<bool> stop{false};
    std::unique_ptr<QThread> thread;
};

PlanDesk::PlanDesk(Bench& bench, QObject* parent)
    : QObject(parent), m_bench(bench),
      m_draft(std::make_unique<planning::Draft>(bench.shop(), bench.now(), planning::Goal::Cost)) {
    connect(&bench, &Bench::changed, this, [this] {
        m_stale = true;
        if (m_watched) follow();
    });
    connect(&bench, &Bench::ticked, this, [this] {
        const bool old = m_bench.now() - problem().now > staleAfter;
        if (m_watched && old && !improving()) follow();
    });
    m_yardsticksSoon.setSingleShot(true);
    m_yardsticksSoon.setInterval(yardsticksAfterMs);
    connect(&m_yardsticksSoon, &QTimer::timeout, this, &PlanDesk::beginYardsticks);
    reckon();
}

PlanDesk::~PlanDesk() {
    if (m_search) {
        m_search->stop = true;
        m_search->thread->wait();
    }
    m_yardsticksStop.request_stop();
    if (m_yardsticks) m_yardsticks->wait();
}

void PlanDesk::setWatched(bool watched) {
    m_watched = watched;
    if (watched && (m_stale || m_bench.now() - problem().now > staleAfter)) follow();
    if (watched && !m_firstInFirstOut) reckonYardsticks();
}

/// The draft on the shop as it is now.
void PlanDesk::follow() {
    stopImproving();
    m_stale = false;
    std::vector<QString> selected;
    for (const int job : m_selected) selected.push_back(problem().jobs[job].id);
    m_draft->rebase(m_bench.shop(), m_bench.now(), m_draft->whatIf());
    m_selected.clear();
    for (const QString& id : selected)
        if (const int job = problem().jobNumbers.value(id, -1); job >= 0) m_selected.push_back(job);
    reckon();
    if (m_watched) reckonYardsticks();
    Q_EMIT changed();
    Q_EMIT selectionChanged();
}

void PlanDesk::reckon() {
    planning::ShopProblem& p = m_draft->problem();
    const Orders published = planning::publishedOrders(m_bench.shop(), p);
    m_published.reset();
    if (m_bench.shop().plan())
        m_published = planning::Evaluator(p.problem, *p.changes).evaluate(published);
    m_differs = !(published == m_draft->orders());
    m_bound = planning::boundOf(p, m_draft->goal(), timetable());
    m_reservations = planning::reservationsOf(m_bench.shop(), p, timetable());
}

void PlanDesk::reckonYardsticks() {
    m_firstInFirstOut.reset();
    m_sameSetupFirst.reset();
    ++m_yardstickRound;
    m_yardsticksStop.request_stop();
    m_yardsticksSoon.start();
}

/// They take a second or two on a large shop, so a worker does them.
void PlanDesk::beginYardsticks() {
    // Nobody waits for those of an earlier plan: they are stopped, and these begin when they have ended.
    if (m_yardsticks || !m_watched) return;
    const int round = m_yardstickRound;
    m_yardsticksStop = {};
    auto own = std::make_shared<planning::Problem>(problem().problem);
    own->changes = std::shared_ptr<planning::Changes>(problem().changes->clone());
    m_yardsticks = QThread::create([this, own, round, stop = m_yardsticksStop.get_token()] {
        const planning::Totals first =
            planning::timetable(*own, *own->changes, planning::firstInFirstOut(*own, *own->changes, nullptr, stop)).totals;
        const planning::Totals same =
            planning::timetable(*own, *own->changes, planning::sameSetupFirst(*own, *own->changes, nullptr, stop)).totals;
        QMetaObject::invokeMethod(this, [this, first, same, round] {
            if (round != m_yardstickRound) return;
            m_firstInFirstOut = first;
            m_sameSetupFirst = same;
            Q_EMIT changed();
        }, Qt::QueuedConnection);
    });
    QThread* thread = m_yardsticks;
    connect(thread, &QThread::finished, this, [this, thread, round] {
        m_yardsticks = nullptr;
        thread->deleteLater();
        if (round != m_yardstickRound) m_yardsticksSoon.start();
    });
    thread->start(QThread::LowPriority);
}

void PlanDesk::select(const std::vector<int>& jobs) {
    if (jobs == m_selected) return;
    m_selected = jobs;
    Q_EMIT selectionChanged();
}

const planning::TimedJob* PlanDesk::timed(int job) const {
    for (const auto& list : timetable().printers)
        for (const planning::TimedJob& j : list)
            if (j.job == job && job >= 0) return &j;
    return nullptr;
}

std::vector<int> PlanDesk::familyRun(int job) const {
    const auto familyOf = [this](int j, int variant) {
        return problem().problem.jobs[static_cast<std::size_t>(j)].variants[static_cast<std::size_t>(variant)].family;
    };
    for (const auto& list : m_draft->orders().printers) {
        const auto here = std::find_if(list.begin(), list.end(), [job](const planning::Place& p) { return p.job == job; });
        if (here == list.end()) continue;
        const auto same = [&](const planning::Place& p) { return familyOf(p.job, p.variant) == familyOf(job, here->variant); };
        auto first = here, last = here;
        while (first != list.begin() && same(*std::prev(first))) --first;
        while (std::next(last) != list.end() && same(*std::next(last))) ++last;
        std::vector<int> run;
        for (auto p = first; p <= last; ++p) run.push_back(p->job);
        return run;
    }
    std::vector<int> left;
    for (const int j : m_draft->orders().leftOut)
        if (familyOf(j, 0) == familyOf(job, 0)) left.push_back(j);
    return left;
}

PlanDesk::Offer PlanDesk::offer(const std::vector<int>& jobs, const planning::Drop& drop) {
    const Outcome<Orders> moved = planning::moveJobs(problem(), m_draft->orders(), jobs, drop);
    if (!moved) return {moved.error(), {}, {}};
    const planning::Timetable there = m_draft->timed(*moved);
    Offer offer{{}, planning::priceBetween(m_draft->timetable().totals, there.totals), {}};
    if (drop.printer < 0 || jobs.empty()) return offer;
    for (const planning::TimedJob& j : there.printers[static_cast<std::size_t>(drop.printer)])
        if (j.job == jobs.front()) offer.print = {j.printStart, j.printEnd};
    return offer;
}

void PlanDesk::take(const Orders& orders, const QString& what, bool again) {
    m_draft->take(orders, what, again);
    reckon();
    Q_EMIT changed();
}

std::optional<Finding> PlanDesk::drop(const std::vector<int>& jobs, const planning::Drop& drop) {
    stopImproving();
    const Outcome<Orders> moved = planning::moveJobs(problem(), m_draft->orders(), jobs, drop);
    if (!moved) return moved.error();
    take(*moved, jobs.size() == 1 ? tr("move %1").arg(problem().jobs[jobs.front()].id)
                                  : tr("move %1 jobs").arg(jobs.size()));
    return {};
}

std::optional<Finding> PlanDesk::changeVariant(int job, int variant) {
    stopImproving();
    const Outcome<Orders> other = planning::changeVariant(problem(), m_draft->orders(), job, variant);
    if (!other) return other.error();
    take(*other, tr("another variant of %1").arg(problem().jobs[job].id));
    return {};
}

void PlanDesk::setLocked(const std::vector<int>& jobs, bool locked) {
    stopImproving();
    take(planning::setLocked(m_draft->orders(), jobs, locked), locked ? tr("lock") : tr("unlock"));
}

void PlanDesk::groupByFamily() {
    stopImproving();
    take(planning::groupByFamily(problem(), m_draft->orders()), tr("group by family"));
}

void PlanDesk::undo() {
    stopImproving();
    m_draft->undo();
    reckon();
    Q_EMIT changed();
}

void PlanDesk::redo() {
    stopImproving();
    m_draft->redo();
    reckon();
    Q_EMIT changed();
}

void PlanDesk::discard() {
    stopImproving();
    m_draft = std::make_unique<planning::Draft>(m_bench.shop(), m_bench.now(), m_draft->goal());
    m_selected.clear();
    m_stale = false;
    reckon();
    if (m_watched) reckonYardsticks();
    Q_EMIT selectionChanged();
    Q_EMIT changed();
}

void PlanDesk::setGoal(planning::Goal goal) {
    stopImproving();
    m_draft->setGoal(goal);
    reckon();
    Q_EMIT changed();
}

void PlanDesk::assume(const planning::WhatIf& whatIf) {
    stopImproving();
    m_draft->rebase(m_bench.shop(), m_bench.now(), whatIf);
    m_selected.clear();
    reckon();
    if (m_watched) reckonYardsticks();
    Q_EMIT selectionChanged();
    Q_EMIT changed();
}

void PlanDesk::replanFromNow(int keepHours) {
    follow();
    if (keepHours <= 0) return;
    m_draft->keepFirst(60 * keepHours);
    reckon();
    Q_EMIT changed();
}

void PlanDesk::catchUp() {
    if (m_stale || problem().now != std::chrono::ceil<std::chrono::minutes>(m_bench.now())) follow();
}

std::optional<Finding> PlanDesk::publish() {
    stopImproving();
    if (!m_draft->whatIf().isEmpty()) {
        return refusal(QStringLiteral("what-if"), tr("This draft rests on assumptions (What if); the shop cannot follow it"),
                       tr("take the assumptions back, or enter them for the shop")).value();
    }
    catchUp();
    const auto done = m_bench.perform(act::PlanPublished{
        planning::planOf(problem(), m_draft->orders(), timetable(), m_draft->goal(), m_reservations)});
    if (!done) return done.error();
    // What could not be done is no part of the published plan; the draft goes on from that plan.
    const Orders follows = planning::publishedOrders(m_bench.shop(), problem());
    if (!(follows == m_draft->orders())) {
        const planning::Goal goal = m_draft->goal();
        m_draft = std::make_unique<planning::Draft>(m_bench.shop(), m_bench.now(), goal);
        m_selected.clear();
        reckon();
        Q_EMIT selectionChanged();
        Q_EMIT changed();
    }
    return {};
}

void PlanDesk::improve(double seconds) {
    if (m_search) return;
    m_search = std::make_unique<Search>();
    Search& s = *m_search;
    s.problem = problem().problem;
    s.changes = problem().changes->clone();
    s.options.goal = m_draft->goal();
    s.options.seconds = seconds;
    s.options.start = m_draft->orders();
    s.options.stop = [&s] { return s.stop.load(); };
    const planning::Goal goal = m_draft->goal();
    s.options.progress = [this, goal](const planning::Progress& p) {
        const Orders orders = p.plan ? *p.plan : Orders();
        const double value = planning::inUnit(goal, p.best.value);
        QMetaObject::invokeMethod(this, [this, orders, value, seconds = p.seconds, moves = static_cast<qint64>(p.iterations)] {
            if (!m_search) return;
            if (!orders.printers.empty() && !(orders == m_draft->orders())) take(orders, tr("improve"), true);
            Q_EMIT progressed(seconds, moves, value);
        }, Qt::QueuedConnection);
    };
    s.thread.reset(QThread::create([&s] { s.result = planning::improve(s.problem, *s.changes, s.options); }));
    connect(s.thread.get(), &QThread::finished, this, &PlanDesk::searchEnded, Qt::QueuedConnection);
    s.thread->start();
}

void PlanDesk::searchEnded() {
    if (!m_search || !m_search->thread->isFinished()) return;
    m_search->thread->wait();
    const planning::SearchResult result = m_search->result;
    const bool stopped = m_search->stop.load();
    m_search.reset();
    take(result.orders, tr("improve"), true);
    Q_EMIT improved(tr("%1 after %L2 moves in %3 s")
                        .arg(stopped ? tr("Stopped") : tr("Done"))
                        .arg(static_cast<qint64>(result.iterations))
                        .arg(result.seconds, 0, 'f', 1));
}

void PlanDesk::stopImproving() {
    if (!m_search) return;
    m_search->stop = true;
    m_search->thread->wait(); // asked about every millisecond, so this is short
    searchEnded();
}

planning::PlanReport PlanDesk::report() {
    // The yardsticks have been reckoned already as a rule; reckoning them again would hold up the window.
    if (!m_firstInFirstOut || !m_sameSetupFirst)
        return planning::reportOn(m_bench.shop(), m_draft->problem(), m_draft->orders(), m_draft->goal());
    planning::PlanReport r;
    r.goal = m_draft->goal();
    r.timetable = timetable();
    r.orders = m_draft->orders();
    r.bound = m_bound;
    r.firstInFirstOut = *m_firstInFirstOut;
    r.sameSetupFirst = *m_sameSetupFirst;
    r.reservations = m_reservations;
    return r;
}

} // namespace interlude
