#include "model/ledger/chain.h"

namespace interlude {

namespace {

class MemoryStore final : public EventStore {
public:
    explicit MemoryStore(const QString& fleetId) : m_fleetId(fleetId) {}

    qint64 lastSequence() const override { return static_cast<qint64>(m_links.size()); }
    QByteArray lastHash() const override { return m_links.empty() ? genesisHash(m_fleetId) : m_links.back().hash; }

    Outcome<Event> append(Event e) override {
        const auto canonical = forge(e, lastSequence(), lastHash());
        if (!canonical) return tl::unexpected<Finding>(canonical.error());
        m_links.push_back({e.sequence, *canonical, e.hash});
        return e;
    }

    Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const override {
        qint64 count = 0;
        for (qint64 i = std::max<qint64>(after, 0); i < lastSequence(); ++i) {
            const Link link = m_links[static_cast<size_t>(i)]; // a copy: `each` may append
            auto event = eventOf(link.canonical);
            if (!event) return tl::unexpected<Finding>(event.error());
            event->hash = link.hash;
            ++count;
            if (!each(*event)) break;
        }
        return count;
    }

    std::optional<Misfit> verify() const override {
        ChainCheck check(m_fleetId);
        for (const Link& link : m_links)
            if (auto misfit = check.next(link)) return misfit;
        return std::nullopt;
    }

    QString location() const override { return QStringLiteral("in memory only, not kept"); }

private:
    QString m_fleetId;
    std::vector<Link> m_links;
};

} // namespace

std::unique_ptr<EventStore> makeMemoryStore(const QString& fleetId) { return std::make_unique<MemoryStore>(fleetId); }

} // namespace interlude
