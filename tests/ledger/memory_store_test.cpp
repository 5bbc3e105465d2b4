#include "model/ledger/chain.h"
#include "tests/harness/run_tests.h"

#include <QCryptographicHash>
#include <QTest>

using namespace interlude;

namespace {

Event made(const QString& kind, qint64 at, const QJsonObject& payload = {}) {
    Event e;
    e.recordedAt = instantFromMs(at);
    e.happenedAt = instantFromMs(at);
    e.station = QStringLiteral("bench-1");
    e.who = QStringLiteral("ML");
    e.kind = kind;
    e.payload = payload;
    return e;
}

QByteArray sha256(const QByteArray& bytes) { return QCryptographicHash::hash(bytes, QCryptographicHash::Sha256); }

} // namespace

class MemoryStoreTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theChainIsWhatTheHeaderSays();
    void readsInOrderFromAnyPlaceAndStops();
    void refusalsLeaveNothing();
    void storedBytesReadBackOrSayWhyNot_data();
    void storedBytesReadBackOrSayWhyNot();
    void aChainIsJudgedLinkByLink();
};

void MemoryStoreTest::theChainIsWhatTheHeaderSays() {
    const auto store = makeMemoryStore(QStringLiteral("two-printers"));
    QCOMPARE(store->lastSequence(), 0);
    const QByteArray genesis = sha256("interlude ledger 1 two-printers");
    QCOMPARE(store->lastHash(), genesis);

    const auto first = store->append(made(QStringLiteral("part-removed"), 1000, {{QStringLiteral("printer"), QStringLiteral("bay-1")}}));
    QVERIFY(first);
    QCOMPARE(first->sequence, 1);
    const QByteArray bytes = R"({"format":1,"happened-at":1000,"kind":"part-removed","payload":{"printer":"bay-1"},)"
                             R"("recorded-at":1000,"sequence":1,"station":"bench-1","who":"ML"})";
    QCOMPARE(*canonicalBytes(*first), bytes);
    QCOMPARE(first->hash, sha256(genesis + bytes));

    const auto second = store->append(made(QStringLiteral("part-removed"), 2000));
    QCOMPARE(second->sequence, 2);
    QCOMPARE(second->hash, sha256(first->hash + *canonicalBytes(*second)));
    QCOMPARE(store->lastHash(), second->hash);
    QVERIFY(!store->verify());
}

void MemoryStoreTest::readsInOrderFromAnyPlaceAndStops() {
    const auto store = makeMemoryStore(QStringLiteral("f"));
    for (int i = 1; i <= 5; ++i) QVERIFY(store->append(made(QStringLiteral("k"), i)));
    QList<qint64> seen;
    QCOMPARE(*store->read(2, [&](const Event& e) { seen += e.sequence; return true; }), 3);
    QCOMPARE(seen, (QList<qint64>{3, 4, 5}));
    QCOMPARE(*store->read(0, [&](const Event& e) { return e.sequence < 2; }), 2);
    QCOMPARE(*store->read(5, [](const Event&) { return true; }), 0);
}

void MemoryStoreTest::refusalsLeaveNothing() {
    const auto store = makeMemoryStore(QStringLiteral("f"));
    const auto fraction = store->append(made(QStringLiteral("k"), 1, {{QStringLiteral("grams"), 1.5}}));
    QCOMPARE(fraction.error().rule, QStringLiteral("ledger-json"));
    QCOMPARE(fraction.error().place, QStringLiteral("/payload/grams"));
    QCOMPARE(store->append(made(QString(), 1)).error().rule, QStringLiteral("ledger-event"));
    Event early = made(QStringLiteral("k"), 1000);
    early.happenedAt = instantFromMs(1001);
    QCOMPARE(store->append(early).error().rule, QStringLiteral("ledger-time"));
    QCOMPARE(store->lastSequence(), 0);
    QCOMPARE(store->lastHash(), genesisHash(QStringLiteral("f")));
}

void MemoryStoreTest::storedBytesReadBackOrSayWhyNot_data() {
    QTest::addColumn<QByteArray>("bytes");
    QTest::addColumn<QString>("rule");
    const QByteArray good = R"({"format":1,"happened-at":1,"kind":"k","payload":{},"recorded-at":2,"sequence":3,"station":"s","who":""})";
    const auto with = [&](const QByteArray& from, const QByteArray& to) { return QByteArray(good).replace(from, to); };
    const QString damaged = QStringLiteral("ledger-damaged");
    QTest::newRow("good") << good << QString();
    QTest::newRow("no JSON") << good.left(20) << damaged;
    QTest::newRow("no object") << QByteArray("[1]") << damaged;
    QTest::newRow("empty") << QByteArray() << damaged;
    QTest::newRow("a space") << with("{}", "{ }") << damaged;
    QTest::newRow("twice the same member") << with("\"who\":\"\"", "\"who\":\"\",\"who\":\"\"") << damaged;
    QTest::newRow("other order") << with("\"format\":1,", "").replace("\"who\":\"\"", "\"who\":\"\",\"format\":1") << damaged;
    QTest::newRow("member missing") << with("\"kind\":\"k\",", "") << damaged;
    QTest::newRow("member too many") << with("\"who\":\"\"", "\"who\":\"\",\"x\":1") << damaged;
    QTest::newRow("wrong type") << with("\"kind\":\"k\"", "\"kind\":7") << damaged;
    QTest::newRow("no such format") << with("\"format\":1", "\"format\":0") << damaged;
    QTest::newRow("newer") << with("\"format\":1", "\"format\":2") << QStringLiteral("ledger-newer");
}

void MemoryStoreTest::storedBytesReadBackOrSayWhyNot() {
    QFETCH(QByteArray, bytes);
    QFETCH(QString, rule);
    const auto read = eventOf(bytes);
    if (rule.isEmpty()) {
        QVERIFY(read);
        QCOMPARE(*canonicalBytes(*read), bytes);
        QCOMPARE(read->sequence, 3);
    } else {
        QVERIFY(!read);
        QCOMPARE(read.error().rule, rule);
        QVERIFY(!read.error().remedy.isEmpty());
    }
}

void MemoryStoreTest::aChainIsJudgedLinkByLink() {
    const QString fleet = QStringLiteral("f");
    std::vector<Link> links;
    QByteArray hash = genesisHash(fleet);
    for (int i = 0; i < 4; ++i) {
        Event e = made(QStringLiteral("k"), i);
        const QByteArray canonical = *forge(e, i, hash);
        hash = e.hash;
        links.push_back({e.sequence, canonical, hash});
    }
    const auto judge = [&](const QString& of, const std::vector<Link>& chain) -> std::optional<Misfit> {
        ChainCheck check(of);
        for (const Link& link : chain)
            if (auto misfit = check.next(link)) return misfit;
        return std::nullopt;
    };
    QVERIFY(!judge(fleet, links));
    QCOMPARE(judge(QStringLiteral("g"), links)->sequence, 1); // another fleet's genesis

    auto gap = links;
    gap.erase(gap.begin() + 1);
    QCOMPARE(judge(fleet, gap)->sequence, 2);
    QVERIFY(judge(fleet, gap)->reason.contains(QStringLiteral("missing")));

    auto twice = links;
    twice.insert(twice.begin() + 2, links[1]);
    QCOMPARE(judge(fleet, twice)->sequence, 2);

    // A forger who recomputes the hashes but leaves the content impossible is still named.
    auto impossible = links;
    impossible[3].canonical.replace("\"happened-at\":3", "\"happened-at\":9");
    impossible[3].hash = chainedHash(links[2].hash, impossible[3].canonical);
    QCOMPARE(judge(fleet, impossible)->sequence, 4);
    QVERIFY(judge(fleet, impossible)->reason.contains(QStringLiteral("after it was recorded")));
}

INTERLUDE_TEST(MemoryStoreTest)
#include "memory_store_test.moc"
