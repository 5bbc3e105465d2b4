#include "model/shop/shop.h"

#include "model/shop/fold/fold.h"

#include <algorithm>

namespace interlude {

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
    return m_catalogues.value(hash);
}

const Material* Shop::material(const MaterialId& id) const {
    if (id.isEmpty())
        return nullptr;
    if (const Material* m = m_catalogue->material(id))
        return m;
    for (const CataloguePtr& c : m_catalogues)
        if (const Material* m = c->material(id))
            return m;
    return nullptr;
}

const NozzleType* Shop::nozzleType(const NozzleTypeId& id) const {
    if (const NozzleType* t = m_catalogue->nozzleType(id))
        return t;
    for (const CataloguePtr& c : m_catalogues)
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
    const auto found = m_printers.constFind(id);
    return found == m_printers.constEnd() ? nullptr : &*found;
}

QList<Job> Shop::jobs() const {
    QList<Job> out = m_jobs.values();
    std::stable_sort(out.begin(), out.end(), [](const Job& a, const Job& b) { return a.rank < b.rank; });
    return out;
}

const Job* Shop::job(const JobId& id) const {
    const auto found = m_jobs.constFind(id);
    return found == m_jobs.constEnd() ? nullptr : &*found;
}

const SessionState* Shop::session(qint64 number) const {
    const auto found = m_sessions.constFind(number);
    return found == m_sessions.constEnd() ? nullptr : &*found;
}

const SessionState* Shop::openSession(const PrinterId& printer) const {
    for (const SessionState& s : m_sessions)
        if (s.printer == printer && s.isOpen())
            return &s;
    return nullptr;
}

qint64 Shop::nextSession() const {
    return m_sessions.isEmpty() ? 1 : m_sessions.lastKey() + 1;
}

} // namespace interlude
