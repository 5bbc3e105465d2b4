#pragma once
// The sample fleet on a memory ledger with a clock that stands until it is moved, and a bench on it: what the pages of
// the window are tested against.

#include "views/bench/bench.h"

#include "model/catalogue/reader.h"
#include "model/ledger/store.h"

#include <QtTest>

namespace interlude::tests {

class SampleBench {
public:
    /// `ledger`: a file, opened as the window does; empty: in memory. `start`: what the machine's clock says.
    explicit SampleBench(const QString& ledger = {}, std::optional<Instant> start = {}) : ledgerFile(ledger) {
        if (start) clock = ManualClock(*start);
        const CatalogueReading reading =
            readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR) + QStringLiteral("/sample-fleet"));
        for (const Problem& p : reading.problems) problems += p.text() + QLatin1Char('\n');
        catalogue = reading.catalogue;
        if (catalogue) open();
    }
    /// The program ends and starts again on the same ledger's events.
    void restart() {
        bench.reset();
        std::vector<Event> events;
        auto all = workbench->store().read(0, [&](const Event& e) {
            events.push_back(e);
            return true;
        });
        Q_ASSERT(all);
        workbench.reset();
        auto store = makeMemoryStore(catalogue->fleet.id);
        for (Event& e : events) Q_UNUSED(store->append(e));
        open(std::move(store));
    }
    void advance(Milliseconds d) {
        clock.advance(d);
        bench->tick();
    }
    const Shop& shop() const { return workbench->shop(); }
    qint64 events(const QString& kind) const {
        qint64 n = 0;
        Q_UNUSED(workbench->store().read(0, [&](const Event& e) {
            n += e.kind == kind ? 1 : 0;
            return true;
        }));
        return n;
    }

    QString ledgerFile;
    QString problems;
    ManualClock clock{instantOf(QDateTime(QDate(2026, 5, 4), QTime(8, 0), Qt::UTC))};
    CataloguePtr catalogue;
    std::unique_ptr<Workbench> workbench;
    std::unique_ptr<Bench> bench;

private:
    void open(std::unique_ptr<EventStore> store = {}) {
        if (!store && !ledgerFile.isEmpty()) {
            auto file = openSqliteStore(ledgerFile, catalogue->fleet.id, QStringLiteral("bench-pc"), false);
            if (!file) qFatal("%s", qPrintable(sentence(file.error())));
            store = std::move(*file);
        }
        if (!store) store = makeMemoryStore(catalogue->fleet.id);
        auto opened = Workbench::open(catalogue, std::move(store), clock, QStringLiteral("bench-pc"));
        if (!opened) qFatal("%s", qPrintable(sentence(opened.error())));
        workbench = std::move(*opened);
        bench = std::make_unique<Bench>(*workbench);
        bench->signIn(QStringLiteral("ML"));
    }
};

} // namespace interlude::tests
