#include "model/shop/fold/fold.h"

#include "model/catalogue/reader.h"

namespace interlude {

namespace {

/// At hand, or taken from what was put away: what an event changes must be at hand.
template <class Map, class Fetch> auto* find(Map& map, const typename Map::key_type& id, const Fetch& putAway) {
    const auto found = map.find(id);
    if (found != map.end())
        return &*found;
    const auto* kept = putAway(id);
    return kept ? &*map.insert(id, *kept) : nullptr;
}

} // namespace

Finding Fold::unknown(const QString& what, const QString& id) const {
    return {Severity::Refusal,
            QStringLiteral("ledger-fold"),
            QStringLiteral("Event %1 (`%2`) speaks of %3 %4, which is not known")
                .arg(QString::number(m_event.sequence), m_event.kind, what, id),
            QStringLiteral("verify the ledger; read it with the version that wrote it"),
            id,
            false};
}

Finding Fold::repeated(const QString& what, const QString& id) const {
    return {Severity::Refusal,
            QStringLiteral("ledger-fold"),
            QStringLiteral("Event %1 (`%2`) brings %3 %4, which is there already")
                .arg(QString::number(m_event.sequence), m_event.kind, what, id),
            QStringLiteral("verify the ledger"),
            id,
            false};
}

Spool* Fold::spool(const SpoolId& id) {
    return find(m_shop.m_stock.spools, id, [&](const SpoolId& each) { return std::as_const(m_shop).spool(each); });
}
Nozzle* Fold::nozzle(const NozzleSerial& id) {
    return find(m_shop.m_stock.nozzles, id, [&](const NozzleSerial& each) { return std::as_const(m_shop).nozzle(each); });
}
PrinterNow* Fold::printer(const PrinterId& id) {
    return find(m_shop.m_printers, id, [](const PrinterId&) { return static_cast<const PrinterNow*>(nullptr); });
}
Job* Fold::job(const JobId& id) {
    return find(m_shop.m_jobs, id, [&](const JobId& each) { return std::as_const(m_shop).job(each); });
}
SessionState* Fold::session(qint64 number) {
    return find(m_shop.m_sessions, number, [&](qint64 each) { return std::as_const(m_shop).session(each); });
}

SessionState* Fold::openSession(const PrinterId& printer) {
    for (SessionState& s : m_shop.m_sessions)
        if (s.printer == printer && s.isOpen())
            return &s;
    return nullptr;
}

Fold::Trouble Fold::on(const act::CatalogueRead& x) {
    CataloguePtr read = m_shop.catalogueByHash(x.hash);
    // A catalogue at hand is the same one when the hash says so; reading its texts again would give no other.
    if (!read)
        read = m_shop.m_offered.value(x.hash);
    if (!read) {
        const CatalogueReading reading = readFleetTexts(x.files);
        if (!reading.catalogue)
            return Finding{Severity::Refusal,
                           QStringLiteral("ledger-catalogue"),
                           QStringLiteral("The fleet files kept in event %1 cannot be read: %2")
                               .arg(QString::number(m_event.sequence), reading.problems.isEmpty()
                                                                           ? QStringLiteral("no reason given")
                                                                           : reading.problems.first().text()),
                           QStringLiteral("read this ledger with the version that wrote it"),
                           x.hash,
                           false};
        read = reading.catalogue;
    }
    // Before the first catalogue of the ledger, printers were a guess from the folder at hand.
    if (m_shop.m_catalogueEvents.isEmpty())
        m_shop.m_printers.clear();
    if (!m_shop.m_catalogueEvents.contains(x.hash))
        m_shop.m_catalogueEvents.insert(x.hash, m_event.sequence);
    m_shop.m_catalogues.insert(x.hash, read);
    m_shop.m_catalogue = read;
    for (const Printer& p : read->fleet.printers)
        m_shop.m_printers[p.id].id = p.id;
    return {};
}

Fold::Trouble Fold::on(const act::ExampleStarted& x) {
    if (!m_shop.m_exampleOffset)
        m_shop.m_exampleOffset = x.offset;
    return {};
}

void Fold::interruptAll(Instant from, Instant to, const QString& cause, const QString& note) {
    for (SessionState& s : m_shop.m_sessions) {
        // A pause is an interruption already, but what was recorded before it must still be comparable after a jump.
        const bool inPause = s.phase == SessionPhase::Paused && cause == QStringLiteral("clock");
        if (s.phase != SessionPhase::Open && !inPause)
            continue;
        Interruption i;
        i.from = from;
        i.to = to;
        i.event = m_event.sequence;
        i.cause = cause;
        i.note = note;
        // The pause that goes on stays the last one: it ends later.
        s.interruptions.insert(s.interruptions.size() - (inPause ? 1 : 0), i);
        touch(s);
    }
}

Fold::Trouble Fold::on(const act::ProgramStarted&) {
    if (const auto last = m_shop.m_lastRecorded)
        interruptAll(*last, m_at, QStringLiteral("restart"), QStringLiteral("the program was not running"));
    return {};
}

Fold::Trouble Fold::on(const act::ClockJumped& x) {
    if (x.slept.count() > 0)
        interruptAll(m_at - x.slept, m_at, QStringLiteral("suspend"),
                     QStringLiteral("the computer slept for %1 s").arg(x.slept.count() / 1000));
    if (x.by.count() != 0)
        interruptAll(m_at - x.by, m_at, QStringLiteral("clock"),
                     QStringLiteral("the wall clock was set %1 by %2 s")
                         .arg(x.by.count() > 0 ? QStringLiteral("forward") : QStringLiteral("back"))
                         .arg(std::abs(x.by.count()) / 1000));
    return {};
}

} // namespace interlude
