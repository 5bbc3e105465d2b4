#include "tests/failures/shift.h"

#include <QFile>
#include <QJsonDocument>
#include <QTemporaryDir>

namespace interlude::tests {

namespace {

const QString station = QStringLiteral("bench-pc");

QByteArray stateOf(const Shop& shop) { return QJsonDocument(stateJson(shop)).toJson(QJsonDocument::Compact); }

/// A refusal must say which rule, why, and what to do; those of the ledger only, since the technician never errs.
QString unclear(const Finding& f) {
    const QString all = f.rule + QStringLiteral(": ") + sentence(f);
    if (f.severity != Severity::Refusal) return QStringLiteral("not a refusal: ") + all;
    if (!f.rule.startsWith(QStringLiteral("ledger-"))) return QStringLiteral("refused for another reason than the disk: ") + all;
    if (f.reason.isEmpty() || f.remedy.isEmpty()) return QStringLiteral("the refusal does not say what to do: ") + all;
    return {};
}

/// The sample fleet with only what one changeover on one printer needs of its opening entries: thousands of shifts begin
/// with reading them.
const CataloguePtr& shiftFleet() {
    static const CataloguePtr fleet = [] {
        ManualClock clock(instantFromMs(1780000000000));
        const auto bench = Workbench::open(sampleFleet(), makeMemoryStore(sampleFleet()->fleet.id), clock, station);
        if (!bench) qFatal("%s", qPrintable(sentence(bench.error())));
        const auto first = Technician(**bench, clock).next();
        const TransitionRequest request = std::get<act::SessionStarted>(*first).changeover.transition.request;
        auto small = std::make_shared<Catalogue>(*sampleFleet());
        Openings& o = small->openings;
        QSet<QString> materials{request.wanted.part, request.wanted.support};
        o.setups.removeIf([&](const OpeningSetup& s) { return s.printer != request.now.id; });
        for (const OpeningSetup& s : std::as_const(o.setups)) materials += {s.part, s.support};
        o.spools.removeIf([&](const Spool& s) { return !materials.contains(s.material); });
        o.jobs.removeIf([&](const Job& j) { return j.id != request.job; });
        o.prints.removeIf([&](const OpeningPrint& p) { return p.printer != request.now.id; });
        return small;
    }();
    return fleet;
}

void refused(const Finding& f, Claim& claim) {
    ++claim.refused;
    claim.unsure = f.rule == QStringLiteral("ledger-disk");
    claim.refusal = f.rule + QStringLiteral(": ") + sentence(f);
}

void claimed(const Shop& shop, Claim& claim) {
    claim.sequence = shop.lastSequence();
    claim.hash = shop.lastHash();
    claim.state = stateOf(shop);
}

QString workOn(Workbench& bench, ManualClock& clock, Claim& claim) {
    Technician technician(bench, clock);
    for (int inARow = 0; inARow < 3;) {
        const auto wanted = technician.next();
        if (!wanted) {
            claim.done = technician.isDone();
            return claim.done ? QString() : technician.lost();
        }
        const qint64 before = bench.shop().lastSequence();
        const auto kept = bench.perform(*wanted, Technician::initials());
        if (bench.shop().lastSequence() != bench.store().lastSequence() || bench.shop().lastHash() != bench.store().lastHash())
            return QStringLiteral("shop and store stand at different events");
        if (kept) {
            inARow = 0;
            ++claim.confirmed;
            claim.unsure = false;
            if (bench.shop().lastSequence() != before + 1) return QStringLiteral("confirmed, and the shop did not move by one event");
            continue;
        }
        ++inARow;
        refused(kept.error(), claim);
        if (const QString why = unclear(kept.error()); !why.isEmpty()) return why;
        if (bench.shop().lastSequence() != before) return QStringLiteral("refused, and the shop moved all the same");
    }
    return {};
}

} // namespace

const QByteArray& openedLedger() {
    static const QByteArray bytes = [] {
        const QTemporaryDir folder;
        const QString file = ledgerIn(folder.path());
        ManualClock clock(instantFromMs(1780000000000));
        {
            auto store = openSqliteStore(file, shiftFleet()->fleet.id, station);
            if (!store) qFatal("%s", qPrintable(sentence(store.error())));
            const auto bench = Workbench::open(shiftFleet(), std::move(*store), clock, station);
            if (!bench) qFatal("%s", qPrintable(sentence(bench.error())));
        }
        QFile closed(file);
        if (!closed.open(QIODevice::ReadOnly)) qFatal("no ledger was left");
        return closed.readAll();
    }();
    return bytes;
}

QString work(const QString& ledger, Claim& claim) {
    ManualClock clock(instantFromMs(1780000060000));
    const auto turnedAway = [&](const Finding& f) {
        refused(f, claim);
        return unclear(f);
    };
    auto store = openSqliteStore(ledger, shiftFleet()->fleet.id, station);
    if (!store) return turnedAway(store.error());
    const auto bench = Workbench::open(shiftFleet(), std::move(*store), clock, station);
    if (!bench) return turnedAway(bench.error());
    const QString wrong = workOn(**bench, clock, claim);
    claimed((*bench)->shop(), claim);
    return wrong;
}

QString look(const QString& ledger, const Claim& claim) {
    const auto store = openSqliteStore(ledger, shiftFleet()->fleet.id, QStringLiteral("next-morning"));
    if (!store) return QStringLiteral("it does not open: ") + sentence(store.error());
    if (const auto misfit = (*store)->verify())
        return QStringLiteral("event %1 does not fit: %2").arg(misfit->sequence).arg(misfit->reason);
    Shop shop(shiftFleet());
    QString wrong;
    const auto read = (*store)->read(0, [&](const Event& e) {
        if (e.sequence == claim.sequence && e.hash != claim.hash) wrong = QStringLiteral("the last confirmed event is another one");
        const auto folded = shop.apply(e);
        if (!folded) wrong = sentence(folded.error());
        if (wrong.isEmpty() && e.sequence == claim.sequence && !claim.state.isEmpty() && stateOf(shop) != claim.state)
            wrong = QStringLiteral("the shop in memory was another than the one in the file");
        return wrong.isEmpty();
    });
    if (!wrong.isEmpty()) return wrong;
    if (!read) return sentence(read.error());
    if (shop.lastSequence() < claim.sequence)
        return QStringLiteral("claimed %1 events, the file has %2").arg(claim.sequence).arg(shop.lastSequence());
    const qint64 most = claim.sequence + (claim.unsure ? 1 : 0);
    if (!claim.state.isEmpty() && shop.lastSequence() > most)
        return QStringLiteral("event %1 is in the file although it was refused (%2)").arg(shop.lastSequence()).arg(claim.refusal);
    return {};
}

QString carryOn(const QString& ledger) {
    Claim claim;
    if (const QString wrong = work(ledger, claim); !wrong.isEmpty()) return wrong;
    if (!claim.done) return QStringLiteral("the changeover could not be finished: ") + claim.refusal;
    return look(ledger, claim);
}

} // namespace interlude::tests
