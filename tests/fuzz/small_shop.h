#pragma once
// The small folder of the catalogue's tests, opened, with a changeover under way: what the targets change.

#include "model/catalogue/reader.h"
#include "model/shop/workbench.h"
#include "tests/fuzz/target.h"

#include <QDir>
#include <QFile>

namespace interlude::tests {

inline const QMap<QString, QString>& smallFolder() {
    static const QMap<QString, QString> all = [] {
        QMap<QString, QString> out;
        const QDir dir(QStringLiteral(INTERLUDE_SOURCE_DIR "/tests/catalogue/base"));
        for (const QString& name : dir.entryList(QDir::Files)) {
            QFile f(dir.filePath(name));
            promise(f.open(QIODevice::ReadOnly), "the base folder is there");
            out.insert(name, QString::fromUtf8(f.readAll()));
        }
        return out;
    }();
    return all;
}

/// Monday 2026-03-02 06:30 in Vienna and ten minutes.
inline Instant smallNow() { return instantFromMs(1772429400000 + 600'000); }

/// Opened once; session 1 prepares job 7412 on bay-1.
inline const Workbench& smallShop() {
    static const ManualClock clock(smallNow());
    static const std::unique_ptr<Workbench> opened = [] {
        const CatalogueReading reading = readFleetTexts(smallFolder());
        promise(reading.catalogue != nullptr, "the base folder can be read");
        auto w = Workbench::open(reading.catalogue, makeMemoryStore(reading.catalogue->fleet.id), clock, QStringLiteral("fuzz"));
        promise(w.has_value(), "the base folder can be opened");
        const Shop& shop = (*w)->shop();
        const Job job = *shop.job(QStringLiteral("7412"));
        const Transition t = judgeTransition(shop.catalogue(), shop.stock(),
                                             requestFor(*shop.printer(QStringLiteral("bay-1")), job, job.variants.first()), clock.now());
        if (const auto changeover = planChangeover(shop.catalogue(), shop.stock(), t, clock.now()))
            (void)(*w)->perform(act::SessionStarted{shop.nextSession(), QStringLiteral("bay-1"), *changeover, {}, false}, QStringLiteral("ML"));
        return std::move(*w);
    }();
    return *opened;
}

/// An event that would follow what the small shop has.
inline Event nextEvent(const QString& kind, const QJsonObject& payload) {
    Event e;
    e.sequence = smallShop().shop().lastSequence() + 1;
    e.recordedAt = e.happenedAt = smallNow();
    e.station = QStringLiteral("fuzz");
    e.who = QStringLiteral("ML");
    e.kind = kind;
    e.payload = payload;
    e.hash = QByteArray(32, 'h');
    return e;
}

} // namespace interlude::tests
