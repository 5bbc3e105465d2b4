#include "model/shop/snapshot/snapshot.h"

#include "model/catalogue/reader.h"
#include "model/shop/payload/state_fields.h"
#include "model/shop/snapshot/fingerprint.h"

namespace interlude {

namespace {

QByteArray fingerprint() {
    return QByteArray(foldFingerprint);
}

/// The one event of this sequence.
std::optional<Event> eventAt(const EventStore& store, qint64 sequence) {
    std::optional<Event> out;
    const auto read = store.read(sequence - 1, [&](const Event& e) {
        out = e;
        return false;
    });
    return read && out && out->sequence == sequence ? out : std::nullopt;
}

} // namespace

Snapshot::Snapshot(std::unique_ptr<SnapshotFile> file, std::shared_ptr<const EventStore> store)
    : m_file(std::move(file)), m_store(std::move(store)) {
}

std::shared_ptr<Snapshot> Snapshot::open(const QString& file, std::shared_ptr<const EventStore> store, bool readOnly) {
    auto opened = SnapshotFile::open(file, readOnly);
    return opened ? std::shared_ptr<Snapshot>(new Snapshot(std::move(opened), std::move(store))) : nullptr;
}

std::optional<Snapshot::Kept> Snapshot::load(const CataloguePtr& atHand) {
    m_sequence = 0;
    m_atHand = atHand;
    const auto live = m_file->live();
    if (!live || live->stamp.fingerprint != fingerprint() || live->stamp.sequence > m_store->lastSequence())
        return {};
    const auto made = eventAt(*m_store, live->stamp.sequence);
    if (!made || made->hash != live->stamp.hash)
        return {};
    Kept kept{Shop(atHand), {}};
    if (!ShopArchive::restore(live->atHand, kept.shop, shared_from_this()) ||
        kept.shop.lastSequence() != made->sequence || kept.shop.lastHash() != made->hash)
        return {};
    kept.imported.putAway(shared_from_this());
    m_sequence = made->sequence;
    return kept;
}

bool Snapshot::beginAfresh(const CataloguePtr& atHand) {
    m_sequence = 0;
    m_atHand = atHand;
    forgetAsked();
    m_afresh = m_file->begin() && m_file->forgetAll();
    if (!m_afresh)
        m_file->rollback();
    return m_afresh;
}

bool Snapshot::putRows(const Shop& shop, const Over& over, const ImportedOpenings& imported) {
    using namespace payload;
    bool done = true;
    const auto put = [&](Kind kind, const QString& name, const QJsonObject& value) {
        done = done && m_file->put(kind, name, value);
    };
    for (const qint64 number : over.sessions) {
        const SessionState& s = *shop.session(number);
        put(Kind::Session, QString::number(number), stateOf(s));
        put(Kind::Summary, QString::number(number), stateOf(summaryOf(s)));
    }
    for (const qint64 event : over.prints)
        put(Kind::Print, QString::number(event), stateOf(ShopArchive::printsAtHand(shop).value(event)));
    for (const JobId& id : over.jobs)
        put(Kind::Job, id, stateOf(KeptJob{*shop.job(id)}));
    for (const SpoolId& id : over.spools)
        put(Kind::Spool, id, stateOf(KeptSpool{*shop.spool(id)}));
    for (const NozzleSerial& serial : over.nozzles)
        put(Kind::Nozzle, serial, stateOf(KeptNozzle{*shop.nozzle(serial)}));
    const auto& openings = imported.atHand();
    for (auto it = openings.begin(); it != openings.end(); ++it)
        put(Kind::Opening, it.key(), it.value());
    return done;
}

bool Snapshot::putAway(Shop& shop, ImportedOpenings& imported) {
    const Over over = ShopArchive::over(shop);
    if (!m_afresh || !putRows(shop, over, imported))
        return false;
    forgetAsked();
    ShopArchive::putAway(shop, over, shared_from_this());
    imported.putAway(shared_from_this());
    return true;
}

bool Snapshot::write(Shop& shop, ImportedOpenings& imported) {
    if (!m_afresh && !m_file->begin())
        return false;
    const Over over = ShopArchive::over(shop);
    Shop lean = shop;
    ShopArchive::putAway(lean, over, shared_from_this());
    const SnapshotFile::Live live{{fingerprint(), shop.lastSequence(), shop.lastHash()}, ShopArchive::atHand(lean)};
    const bool written = putRows(shop, over, imported) && m_file->putLive(live) && m_file->commit();
    if (!written)
        m_file->rollback();
    m_afresh = false;
    if (!written)
        return false;
    forgetAsked();
    shop = std::move(lean);
    imported.putAway(shared_from_this());
    m_sequence = shop.lastSequence();
    return true;
}

void Snapshot::forgetAsked() {
    m_sessionsAsked.clear();
    m_jobsAsked.clear();
    m_spoolsAsked.clear();
    m_nozzlesAsked.clear();
    m_summaries.reset();
}

CataloguePtr Snapshot::catalogue(qint64 event) const {
    const auto read = eventAt(*m_store, event);
    const auto h = read ? fromPayload(read->kind, read->payload) : tl::unexpected<Finding>(Finding());
    const auto* x = h ? std::get_if<act::CatalogueRead>(&*h) : nullptr;
    return x ? readFleetTexts(x->files).catalogue : nullptr;
}

const Snapshot::Kept& Snapshot::whole() const {
    if (m_whole)
        return *m_whole;
    m_whole = std::make_unique<Kept>(Kept{Shop(m_atHand), {}});
    // A ledger that cannot be read gives as much as can be; opening it has said so already.
    (void)m_store->read(0, [&](const Event& e) {
        m_whole->imported.remember(e);
        return m_whole->shop.apply(e).has_value();
    });
    return *m_whole;
}

} // namespace interlude
