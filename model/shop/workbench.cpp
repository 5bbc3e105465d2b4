#include "model/shop/workbench.h"

#include "model/shop/openings.h"
#include "model/shop/replay_limits.h"
#include "model/shop/snapshot/snapshot.h"

#include <chrono>

namespace interlude {

namespace {

constexpr Milliseconds jumpLimit = Seconds(5);
constexpr Milliseconds sleepLimit = Seconds(60);
/// Late enough that the person must have stated the time.
constexpr Milliseconds lateLimit = Seconds(60);

} // namespace

Workbench::Workbench(std::shared_ptr<EventStore> store, const Clock& machineClock)
    : m_store(std::move(store)), m_machineClock(&machineClock), m_clock(&machineClock),
      m_imported(std::make_unique<ImportedOpenings>()) {
}

Workbench::~Workbench() {
    if (m_opened)
        keepSnapshot(fewEvents);
}

void Workbench::shiftClock(Milliseconds offset) {
    m_shifted = std::make_unique<ShiftedClock>(*m_machineClock, offset);
    m_clock = m_shifted.get();
}

Outcome<qint64> Workbench::begin(const CataloguePtr& catalogue) {
    const Outcome<qint64> replayed = replay(catalogue);
    if (!replayed)
        return replayed;
    const auto& wanted = catalogue->fleet.exampleClock;
    const bool firstOfExample = wanted && m_shop.lastSequence() == 0;
    if (firstOfExample) {
        const Milliseconds offset = instantOf(*wanted) - m_machineClock->now();
        shiftClock(offset);
        if (const auto e = keep(act::ExampleStarted{offset}); !e)
            return tl::unexpected<Finding>(e.error());
    } else if (m_shop.exampleOffset()) {
        shiftClock(*m_shop.exampleOffset());
    }
    m_wallSeen = m_clock->now();
    m_runningSeen = m_clock->running();
    return m_shop.lastSequence();
}

Outcome<std::unique_ptr<Workbench>> Workbench::open(CataloguePtr catalogue, std::unique_ptr<EventStore> store,
                                                    const Clock& machineClock, const QString& station,
                                                    const QString& snapshot) {
    std::unique_ptr<Workbench> bench(new Workbench(std::move(store), machineClock));
    bench->m_station = station;
    if (!snapshot.isEmpty())
        bench->m_snapshot = Snapshot::open(snapshot, bench->m_store, false);
    const auto failed = [](const Finding& f) { return tl::unexpected<Finding>(f); };
    if (const auto begun = bench->begin(catalogue); !begun)
        return failed(begun.error());
    const std::optional<Instant> last = bench->m_shop.lastRecorded();
    if (const auto e = bench->keep(act::ProgramStarted{QStringLiteral(INTERLUDE_VERSION)}); !e)
        return failed(e.error());
    // While the program was not running nothing compared the clocks; a wall clock behind the last event was set back.
    if (last && bench->now() < *last)
        if (const auto e = bench->keep(act::ClockJumped{bench->now() - *last}); !e)
            return failed(e.error());
    if (const auto taken = bench->takeOver(catalogue); !taken)
        return failed(taken.error());
    bench->keepSnapshot(manyEvents);
    bench->m_opened = true;
    return bench;
}

Outcome<std::unique_ptr<Workbench>> Workbench::look(CataloguePtr catalogue, std::unique_ptr<EventStore> store,
                                                    const Clock& machineClock, const QString& snapshot) {
    std::unique_ptr<Workbench> bench(new Workbench(std::move(store), machineClock));
    bench->m_readOnly = true;
    if (!snapshot.isEmpty())
        bench->m_snapshot = Snapshot::open(snapshot, bench->m_store, true);
    if (const auto begun = bench->begin(catalogue); !begun)
        return tl::unexpected<Finding>(begun.error());
    if (const auto taken = bench->takeOver(catalogue); !taken)
        return tl::unexpected<Finding>(taken.error());
    return bench;
}

Outcome<std::optional<Event>> Workbench::takeOver(const CataloguePtr& catalogue) {
    m_shop.offer(catalogue);
    std::optional<Event> last;
    if (!m_shop.catalogueByHash(catalogue->hash) || m_shop.catalogue().hash != catalogue->hash) {
        const auto e = keep(act::CatalogueRead{catalogue->hash, catalogue->files});
        if (!e)
            return tl::unexpected<Finding>(e.error());
        last = *e;
    }
    m_differences.clear();
    const OpeningProblems problems(*catalogue);
    for (const Happening& opening : openingsOf(*catalogue)) {
        if (const auto before = m_imported->find(opening)) {
            if (const auto problem = problems.difference(opening, *before))
                m_differences.append(*problem);
            continue;
        }
        const Findings against = refusalsIn(interlude::objections(m_shop, opening, {}, now()));
        if (!against.isEmpty()) {
            m_differences.append(problems.refused(opening, against.first()));
            continue;
        }
        const auto e = keep(opening);
        if (!e)
            return tl::unexpected<Finding>(e.error());
        last = *e;
    }
    return last;
}

bool Workbench::isExample() const {
    return m_shop.exampleOffset().has_value();
}

Findings Workbench::objections(const Happening& h, const QString& who) const {
    return interlude::objections(m_shop, h, who, now());
}

Outcome<Event> Workbench::keep(const Happening& h, const QString& who, std::optional<Instant> happenedAt) {
    Event e;
    e.sequence = m_shop.lastSequence() + 1;
    e.recordedAt = now();
    e.happenedAt = happenedAt.value_or(e.recordedAt);
    e.station = m_station;
    e.who = who;
    e.kind = kindOf(h);
    e.payload = toPayload(h);
    // Folded on a copy first: what could not be read again must not become part of the ledger.
    Shop after = m_shop;
    if (const auto folded = after.apply(e); !folded)
        return tl::unexpected<Finding>(folded.error());
    if (m_readOnly) {
        if (const auto assumed = m_shop.assume(e); !assumed)
            return tl::unexpected<Finding>(assumed.error());
        return e;
    }
    const Outcome<Event> stored = m_store->append(e);
    if (!stored)
        return stored;
    if (const auto folded = m_shop.apply(*stored); !folded)
        return tl::unexpected<Finding>(folded.error());
    m_imported->remember(*stored);
    Q_EMIT changed(*stored);
    return stored;
}

Outcome<Event> Workbench::perform(const Happening& h, const QString& who, std::optional<Instant> happenedAt) {
    if (m_readOnly)
        return refusal(QStringLiteral("read-only"), QStringLiteral("This shop was opened for looking only"),
                       QStringLiteral("open the workbench"));
    noticeJump();
    Happening act = h;
    if (auto* confirmed = std::get_if<act::StepConfirmed>(&act);
        confirmed && happenedAt && now() - *happenedAt > lateLimit)
        confirmed->enteredLate = true;
    const Findings against = refusalsIn(interlude::objections(m_shop, act, who, now(), happenedAt));
    if (!against.isEmpty())
        return tl::unexpected<Finding>(against.first());
    return keep(act, who, happenedAt);
}

Outcome<Event> Workbench::reload(CataloguePtr catalogue) {
    if (!catalogue || catalogue->fleet.id != m_shop.catalogue().fleet.id)
        return refusal(QStringLiteral("reload"), QStringLiteral("This is another fleet's folder"),
                       QStringLiteral("open it by itself"));
    for (const SessionState& s : m_shop.sessions())
        if (s.isOpen() && !catalogue->printer(s.printer))
            return refusal(QStringLiteral("reload"),
                           QStringLiteral("%1 is gone from the folder while session %2 is open on it")
                               .arg(m_shop.catalogue().printerName(s.printer))
                               .arg(s.number),
                           QStringLiteral("finish or stop the session first"), s.printer);
    const auto last = takeOver(catalogue);
    if (!last)
        return tl::unexpected<Finding>(last.error());
    if (*last)
        return **last;
    return tl::unexpected<Finding>(Finding{Severity::Notice,
                                           QStringLiteral("reload-unchanged"),
                                           QStringLiteral("Nothing has changed in the folder"),
                                           {},
                                           {},
                                           false});
}

void Workbench::noticeJump() {
    if (!m_wallSeen)
        return;
    const Milliseconds by = (now() - *m_wallSeen) - (m_clock->running() - m_runningSeen);
    if (std::chrono::abs(by) <= jumpLimit)
        return;
    // Only the wall clock is put right here: time that went by unwatched is for watchClock to tell.
    *m_wallSeen += by;
    if (!m_readOnly)
        (void)keep(act::ClockJumped{by});
    Q_EMIT clockJumped(by.count());
}

void Workbench::watchClock() {
    noticeJump();
    keepSnapshot(manyEvents);
    const Milliseconds slept = m_clock->running() - m_runningSeen;
    m_wallSeen = now();
    m_runningSeen = m_clock->running();
    if (slept <= sleepLimit)
        return;
    if (!m_readOnly)
        (void)keep(act::ClockJumped{Milliseconds(0), slept});
    Q_EMIT clockJumped(0);
}

} // namespace interlude
