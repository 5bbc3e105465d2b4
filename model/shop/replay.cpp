// How a workbench comes to its shop: from a snapshot and what has happened since, or from the whole ledger.

#include "model/ledger/event.h"
#include "model/shop/openings.h"
#include "model/shop/replay_limits.h"
#include "model/shop/snapshot/snapshot.h"
#include "model/shop/workbench.h"

namespace interlude {

namespace {

/// What does not fit between this event and the one before; empty when all does.
std::optional<Finding> misfit(const Event& e, const QByteArray& before, const QString& where) {
    const auto bytes = canonicalBytes(e);
    if (bytes && chainedHash(before, *bytes) == e.hash)
        return {};
    return Finding{Severity::Refusal,
                   QStringLiteral("ledger-damaged"),
                   QStringLiteral("event %1 of the ledger does not fit the one before it").arg(e.sequence),
                   QStringLiteral("run verify, keep this file as it is, and continue from the last backup that verifies"),
                   where,
                   false};
}

} // namespace

Outcome<qint64> Workbench::replayRest(const std::function<bool()>& often) {
    std::optional<Finding> trouble;
    QByteArray before = m_shop.lastSequence() > 0 ? m_shop.lastHash() : genesisHash(m_shop.catalogue().fleet.id);
    const auto read = m_store->read(m_shop.lastSequence(), [&](const Event& e) {
        trouble = misfit(e, before, m_store->location());
        before = e.hash;
        if (trouble)
            return false;
        if (const Outcome<qint64> applied = m_shop.apply(e); !applied)
            trouble = applied.error();
        else
            m_imported->remember(e);
        return !trouble && (!often || e.sequence % atATime != 0 || often());
    });
    if (!read)
        return read;
    if (trouble)
        return tl::unexpected<Finding>(*trouble);
    if (m_shop.lastSequence() != m_store->lastSequence() ||
        (m_shop.lastSequence() > 0 && m_shop.lastHash() != m_store->lastHash()))
        return refusal(QStringLiteral("ledger-tail"),
                       QStringLiteral("The ledger's last event is not the one that was read last"),
                       QStringLiteral("verify the ledger"), m_store->location());
    return m_shop.lastSequence();
}

Outcome<qint64> Workbench::replayAll(const CataloguePtr& catalogue) {
    const auto afresh = [&] {
        m_shop = Shop(catalogue);
        *m_imported = ImportedOpenings();
    };
    afresh();
    if (!m_snapshot || m_readOnly || !m_snapshot->beginAfresh(catalogue))
        return replayRest();
    bool kept = true;
    const Outcome<qint64> replayed = replayRest([&] { return kept = m_snapshot->putAway(m_shop, *m_imported); });
    if (kept && !replayed)
        return replayed; // the ledger's own trouble
    if (kept && m_snapshot->write(m_shop, *m_imported))
        return replayed;
    // No room for a snapshot, perhaps: then without.
    m_snapshot.reset();
    afresh();
    return replayRest();
}

Outcome<qint64> Workbench::replay(const CataloguePtr& catalogue) {
    if (auto kept = m_snapshot ? m_snapshot->load(catalogue) : std::nullopt) {
        m_shop = std::move(kept->shop);
        *m_imported = std::move(kept->imported);
        // What does not follow from the snapshot may still follow from the ledger alone; if not, its words count.
        if (const Outcome<qint64> rest = replayRest())
            return rest;
    }
    return replayAll(catalogue);
}

void Workbench::keepSnapshot(qint64 least) {
    if (m_snapshot && !m_readOnly && !m_snapshotFailed && m_shop.lastSequence() - m_snapshot->sequence() >= least)
        if (!m_snapshot->write(m_shop, *m_imported))
            m_snapshotFailed = true;
}

} // namespace interlude
