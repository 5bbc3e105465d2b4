#include "model/shop/snapshot/shop_archive.h"

#include "model/shop/payload/state_fields.h"

#include <algorithm>

namespace interlude {

namespace {

bool isOver(const Job& job) {
    return job.state == JobState::Done || job.state == JobState::Withdrawn;
}

} // namespace

Over ShopArchive::over(const Shop& shop) {
    Over out;
    for (const SessionState& s : shop.m_sessions)
        if (!s.isOpen())
            out.sessions.append(s.number);
    for (const PrintRun& run : shop.m_prints)
        if (run.ended)
            out.prints.append(run.event);
    for (const Job& job : shop.m_jobs)
        if (isOver(job))
            out.jobs.append(job.id);
    // What a spool gave to a job is looked up while that job prints, whatever has become of the spool.
    const auto settled = [&](const StockEntry& e) {
        const auto job = shop.m_jobs.constFind(e.reference);
        return job == shop.m_jobs.constEnd() || isOver(*job);
    };
    for (const Spool& s : shop.m_stock.spools)
        if (s.where == SpoolWhere::Retired && std::all_of(s.entries.begin(), s.entries.end(), settled))
            out.spools.append(s.id);
    for (const Nozzle& n : shop.m_stock.nozzles)
        if (n.where == NozzleWhere::Retired)
            out.nozzles.append(n.serial);
    return out;
}

void ShopArchive::putAway(Shop& shop, const Over& over, std::shared_ptr<const Past> past) {
    const auto drop = [](auto& map, const auto& names) {
        for (const auto& name : names)
            map.remove(name);
    };
    drop(shop.m_sessions, over.sessions);
    drop(shop.m_prints, over.prints);
    drop(shop.m_jobs, over.jobs);
    drop(shop.m_stock.spools, over.spools);
    drop(shop.m_stock.nozzles, over.nozzles);
    shop.m_past = std::move(past);
}

template <class A, class S> void ShopArchive::members(A& a, S& shop) {
    using namespace payload;
    a("catalogues", shop.m_catalogueEvents);
    listed<KeptSpool>(a, "spools", shop.m_stock.spools, [](const KeptSpool& k) { return k.item.id; });
    listed<KeptNozzle>(a, "nozzles", shop.m_stock.nozzles, [](const KeptNozzle& k) { return k.item.serial; });
    listed<KeptJob>(a, "jobs", shop.m_jobs, [](const KeptJob& k) { return k.item.id; });
    listed<KeptSession>(a, "sessions", shop.m_sessions, [](const KeptSession& k) { return k.item.number; });
    listed<KeptPrint>(a, "prints", shop.m_prints, [](const KeptPrint& k) { return k.item.event; });
    a("printers", shop.m_printers);
    a("last-session", shop.m_lastSession);
    a("spools-ever", shop.m_spoolsEver);
    a("nozzles-ever", shop.m_nozzlesEver);
    a("jobs-ever", shop.m_jobsEver);
    a("plan", shop.m_plan);
    a("absences", shop.m_absences);
    a("downtimes", shop.m_downtimes);
    a("example-offset-ms", shop.m_exampleOffset);
    a("sequence", shop.m_lastSequence);
    a("recorded-ms", shop.m_lastRecorded);
}

QJsonObject ShopArchive::atHand(const Shop& shop) {
    payload::Writer writer;
    members(writer, shop);
    writer("catalogue", shop.catalogue().hash);
    writer("hash", QString::fromLatin1(shop.lastHash().toHex()));
    return writer.object();
}

bool ShopArchive::restore(const QJsonObject& o, Shop& shop, std::shared_ptr<const Past> past) {
    std::optional<payload::Fault> fault;
    payload::Reader reader(o, {}, fault);
    shop.m_printers.clear();
    members(reader, shop);
    QString catalogue, hash;
    reader("catalogue", catalogue);
    reader("hash", hash);
    reader.finish();
    if (fault)
        return false;
    shop.m_past = std::move(past);
    shop.m_lastHash = QByteArray::fromHex(hash.toLatin1());
    // Before the first catalogue of the ledger the shop has the one of the folder.
    if (shop.m_catalogueEvents.isEmpty())
        return true;
    shop.m_catalogue = shop.catalogueByHash(catalogue);
    return shop.m_catalogue != nullptr;
}

} // namespace interlude
