#include "model/shop/shop.h"

#include "model/shop/fold/fold.h"

#include <algorithm>

namespace interlude {

namespace {

template <class Map> auto at(const Map& map, const typename Map::key_type& key) -> decltype(&*map.constFind(key)) {
    const auto found = map.constFind(key);
    return found == map.constEnd() ? nullptr : &*found;
}

/// What was put away, without what has come to hand again since, and what is at hand; ordered by `place`.
template <class T, class Map, class Key, class Place>
QList<T> together(QList<T> past, const Map& atHand, const Key& keyOf, const Place& place) {
    past.removeIf([&](const T& each) { return atHand.contains(keyOf(each)); });
    past += atHand.values();
    std::stable_sort(past.begin(), past.end(), [&](const T& l, const T& r) { return place(l) < place(r); });
    return past;
}

} // namespace

Shop::Shop(CataloguePtr catalogue) : m_catalogue(catalogue ? catalogue : std::make_shared<Catalogue>()) {
    for (const Printer& p : m_catalogue->fleet.printers)
        m_printers[p.id].id = p.id;
    offer(catalogue);
}

void Shop::offer(CataloguePtr catalogue) {
    if (catalogue && !catalogue->hash.isEmpty())
        m_offered.insert(catalogue->hash, std::move(catalogue));
}

Outcome<qint64> Shop::apply(const Event& e) {
    if (e.sequence != m_lastSequence + 1)
        return refusal(QStringLiteral("ledger-order"),
                       QStringLiteral("Event %1 comes after event %2").arg(e.sequence).arg(m_lastSequence),
                       QStringLiteral("verify the ledger"), QString::number(e.sequence));
    const Outcome<qint64> assumed = assume(e);
    if (!assumed)
        return assumed;
    m_lastSequence = e.sequence;
    m_lastHash = e.hash;
    m_lastRecorded = e.recordedAt;
    return e.sequence;
}

Outcome<qint64> Shop::assume(const Event& e) {
    const Outcome<Happening> h = fromPayload(e.kind, e.payload);
    if (!h)
        return tl::unexpected<Finding>(h.error());
    if (const auto trouble = Fold(*this, e).fold(*h))
        return tl::unexpected<Finding>(*trouble);
    return e.sequence;
}

CataloguePtr Shop::catalogueByHash(const QString& hash) const {
    if (const CataloguePtr known = m_catalogues.value(hash))
        return known;
    const auto event = m_catalogueEvents.constFind(hash);
    if (event == m_catalogueEvents.constEnd())
        return nullptr;
    CataloguePtr read = m_offered.value(hash);
    if (!read && m_past)
        read = m_past->catalogue(*event);
    if (read)
        m_catalogues.insert(hash, read);
    return read;
}

const Material* Shop::material(const MaterialId& id) const {
    if (id.isEmpty())
        return nullptr;
    if (const Material* m = m_catalogue->material(id))
        return m;
    for (const QString& hash : m_catalogueEvents.keys())
        if (const CataloguePtr c = catalogueByHash(hash))
            if (const Material* m = c->material(id))
                return m;
    return nullptr;
}

const NozzleType* Shop::nozzleType(const NozzleTypeId& id) const {
    if (const NozzleType* t = m_catalogue->nozzleType(id))
        return t;
    for (const QString& hash : m_catalogueEvents.keys())
        if (const CataloguePtr c = catalogueByHash(hash))
            if (const NozzleType* t = c->nozzleType(id))
                return t;
    return nullptr;
}

QList<PrinterNow> Shop::printers() const {
    QList<PrinterNow> out;
    for (const Printer& p : m_catalogue->fleet.printers)
        if (const PrinterNow* now = printer(p.id))
            out.append(*now);
    return out;
}

const PrinterNow* Shop::printer(const PrinterId& id) const {
    return at(m_printers, id);
}

// -- at hand or put away ------------------------------------------------------------------------------------------

const Spool* Shop::spool(const SpoolId& id) const {
    const Spool* here = at(m_stock.spools, id);
    return here || !m_past || id.isEmpty() ? here : m_past->spool(id);
}

const Nozzle* Shop::nozzle(const NozzleSerial& serial) const {
    const Nozzle* here = at(m_stock.nozzles, serial);
    return here || !m_past || serial.isEmpty() ? here : m_past->nozzle(serial);
}

const Job* Shop::job(const JobId& id) const {
    const Job* here = at(m_jobs, id);
    return here || !m_past || id.isEmpty() ? here : m_past->job(id);
}

const SessionState* Shop::session(qint64 number) const {
    const SessionState* here = at(m_sessions, number);
    return here || !m_past ? here : m_past->session(number);
}

QList<Spool> Shop::allSpools() const {
    return together(m_past ? m_past->spools() : QList<Spool>(), m_stock.spools, [](const Spool& s) { return s.id; },
                    [](const Spool& s) { return s.order; });
}

QList<Nozzle> Shop::allNozzles() const {
    return together(m_past ? m_past->nozzles() : QList<Nozzle>(), m_stock.nozzles,
                    [](const Nozzle& n) { return n.serial; }, [](const Nozzle& n) { return n.order; });
}

QList<Job> Shop::jobs() const {
    return together(QList<Job>(), m_jobs, [](const Job& j) { return j.id; }, [](const Job& j) { return j.rank; });
}

QList<Job> Shop::allJobs() const {
    return together(m_past ? m_past->jobs() : QList<Job>(), m_jobs, [](const Job& j) { return j.id; },
                    [](const Job& j) { return j.rank; });
}

QList<PrintRun> Shop::allPrints() const {
    return together(m_past ? m_past->prints() : QList<PrintRun>(), m_prints, [](const PrintRun& r) { return r.event; },
                    [](const PrintRun& r) { return r.event; });
}

QList<SessionSummary> Shop::sessionList() const {
    QMap<qint64, SessionSummary> here;
    for (const SessionState& s : m_sessions)
        here.insert(s.number, summaryOf(s));
    const auto number = [](const SessionSummary& s) { return s.number; };
    return together(m_past ? m_past->sessions() : QList<SessionSummary>(), here, number, number);
}

const SessionState* Shop::openSession(const PrinterId& printer) const {
    for (const SessionState& s : m_sessions)
        if (s.printer == printer && s.isOpen())
            return &s;
    return nullptr;
}

qint64 Shop::nextSession() const {
    return m_lastSession + 1;
}

} // namespace interlude
