// Asking for what was put away.

#include "model/shop/payload/state_fields.h"
#include "model/shop/snapshot/snapshot.h"

namespace interlude {

namespace {

using namespace payload;

/// Kept decoded at a time, of each kind.
constexpr std::size_t mostAsked = 64;

template <class T> const T* found(const QMap<QString, T>& map, const QString& key) {
    const auto it = map.constFind(key);
    return it == map.constEnd() ? nullptr : &*it;
}

} // namespace

template <class T, class Stored>
const T* Snapshot::fetch(Asked<T>& asked, Kind kind, const QString& name, const Stored& unwrap) const {
    if (const auto known = asked.find(name); known != asked.end())
        return known->second.get();
    const auto row = m_file->get(kind, name);
    if (!row)
        return nullptr;
    std::optional<T> value = unwrap(*row);
    if (!value) {
        m_file->condemn();
        return nullptr;
    }
    if (asked.size() >= mostAsked)
        asked.clear();
    return (asked[name] = std::make_unique<T>(std::move(*value))).get();
}

const SessionState* Snapshot::session(qint64 number) const {
    const SessionState* s = fetch(m_sessionsAsked, Kind::Session, QString::number(number),
                                  [](const QJsonObject& o) { return stateFrom<SessionState>(o); });
    return m_file->isDamaged() ? whole().shop.session(number) : s;
}

const Job* Snapshot::job(const JobId& id) const {
    const Job* j = fetch(m_jobsAsked, Kind::Job, id, [](const QJsonObject& o) {
        const auto kept = stateFrom<KeptJob>(o);
        return kept ? std::optional(kept->item) : std::nullopt;
    });
    return m_file->isDamaged() ? whole().shop.job(id) : j;
}

const Spool* Snapshot::spool(const SpoolId& id) const {
    const Spool* s = fetch(m_spoolsAsked, Kind::Spool, id, [](const QJsonObject& o) {
        const auto kept = stateFrom<KeptSpool>(o);
        return kept ? std::optional(kept->item) : std::nullopt;
    });
    return m_file->isDamaged() ? found(whole().shop.stock().spools, id) : s;
}

const Nozzle* Snapshot::nozzle(const NozzleSerial& serial) const {
    const Nozzle* n = fetch(m_nozzlesAsked, Kind::Nozzle, serial, [](const QJsonObject& o) {
        const auto kept = stateFrom<KeptNozzle>(o);
        return kept ? std::optional(kept->item) : std::nullopt;
    });
    return m_file->isDamaged() ? found(whole().shop.stock().nozzles, serial) : n;
}

template <class Stored, class Unwrap> auto Snapshot::all(Kind kind, const Unwrap& unwrap) const {
    QList<std::decay_t<decltype(unwrap(std::declval<Stored>()))>> out;
    m_file->each(kind, [&](const QJsonObject& o) {
        if (const auto value = stateFrom<Stored>(o))
            out.append(unwrap(*value));
        else
            m_file->condemn();
    });
    return out;
}

QList<SessionSummary> Snapshot::sessions() const {
    if (!m_summaries)
        m_summaries = all<SessionSummary>(Kind::Summary, [](const SessionSummary& s) { return s; });
    return m_file->isDamaged() ? whole().shop.sessionList() : *m_summaries;
}

QList<Job> Snapshot::jobs() const {
    const QList<Job> out = all<KeptJob>(Kind::Job, [](const KeptJob& k) { return k.item; });
    return m_file->isDamaged() ? whole().shop.allJobs() : out;
}

QList<Spool> Snapshot::spools() const {
    const QList<Spool> out = all<KeptSpool>(Kind::Spool, [](const KeptSpool& k) { return k.item; });
    return m_file->isDamaged() ? whole().shop.allSpools() : out;
}

QList<Nozzle> Snapshot::nozzles() const {
    const QList<Nozzle> out = all<KeptNozzle>(Kind::Nozzle, [](const KeptNozzle& k) { return k.item; });
    return m_file->isDamaged() ? whole().shop.allNozzles() : out;
}

QList<PrintRun> Snapshot::prints() const {
    const QList<PrintRun> out = all<PrintRun>(Kind::Print, [](const PrintRun& r) { return r; });
    return m_file->isDamaged() ? whole().shop.allPrints() : out;
}

std::optional<QJsonObject> Snapshot::opening(const QString& key) const {
    const auto row = m_file->get(Kind::Opening, key);
    if (!m_file->isDamaged())
        return row;
    const auto& atHand = whole().imported.atHand();
    return atHand.contains(key) ? std::optional(atHand.value(key)) : std::nullopt;
}

} // namespace interlude
