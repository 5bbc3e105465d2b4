#include "app/verbs/watched_store.h"

#include "app/verbs/opened_shop.h"

#include <QElapsedTimer>
#include <QLocale>

namespace interlude::app {

namespace {

constexpr qint64 everyEvents = 250;
constexpr qint64 patienceMs = 2000, betweenMs = 5000;

class WatchedStore final : public EventStore {
public:
    WatchedStore(std::unique_ptr<EventStore> store, std::shared_ptr<Watch> watch)
        : m_store(std::move(store)), m_watch(std::move(watch)) {}

    qint64 lastSequence() const override { return m_store->lastSequence(); }
    QByteArray lastHash() const override { return m_store->lastHash(); }
    Outcome<Event> append(Event e) override { return m_store->append(std::move(e)); }
    std::optional<Misfit> verify() const override { return m_store->verify(); }
    QString location() const override { return m_store->location(); }

    Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const override {
        qint64 since = 0;
        return m_store->read(after, [&](const Event& e) {
            if (++since % everyEvents == 0 && m_watch->reading)
                m_watch->stopped = !m_watch->reading(e.sequence, lastSequence());
            return !m_watch->stopped && each(e);
        });
    }

private:
    std::unique_ptr<EventStore> m_store;
    std::shared_ptr<Watch> m_watch;
};

} // namespace

std::unique_ptr<EventStore> watchedStore(std::unique_ptr<EventStore> store, std::shared_ptr<Watch> watch) {
    return std::make_unique<WatchedStore>(std::move(store), std::move(watch));
}

Reading readingOnStandardError() {
    QElapsedTimer begun;
    begun.start();
    return [begun, next = patienceMs](qint64 read, qint64 all) mutable {
        if (begun.elapsed() < next) return true;
        next = begun.elapsed() + betweenMs;
        const QLocale english(QLocale::English);
        complain(QStringLiteral("reading the ledger: %1 of %2 events").arg(english.toString(read), english.toString(all)));
        return true;
    };
}

} // namespace interlude::app
