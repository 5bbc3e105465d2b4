// A ledger that speaks of what is not there, or brings something twice, is refused where it does, and the shop stays as it was.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

/// Folds one event in as a ledger would have it, unchecked.
Outcome<qint64> apply(Shop& shop, const Happening& h, int minute = 1) {
    Event e;
    e.sequence = shop.lastSequence() + 1;
    e.recordedAt = e.happenedAt = interlude::tests::at(minute);
    e.station = text("bench");
    e.who = text("ML");
    e.kind = kindOf(h);
    e.payload = toPayload(h);
    return shop.apply(e);
}

/// Kinds that may happen in a shop that knows no printer, spool, nozzle, job or session.
const QStringList needNothing{text("example-started"), text("spool-opening"),    text("nozzle-opening"), text("job-opening"),
                              text("imported"),        text("spool-received"),   text("nozzle-received"), text("job-added"),
                              text("plan-published"),  text("absence-entered"),  text("downtime-planned"), text("program-started"),
                              text("clock-jumped")};

} // namespace

class StrangersTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void inAShopThatKnowsNothing_data() {
        QTest::addColumn<int>("index");
        const QList<Happening> all = everyKind();
        for (int i = 0; i < all.size(); ++i) QTest::newRow(qPrintable(kindOf(all[i]))) << i;
    }
    void inAShopThatKnowsNothing() {
        QFETCH(int, index);
        const Happening h = everyKind()[index];
        Shop shop(std::make_shared<Catalogue>());
        const QByteArray before = World::digestOf(shop);
        const auto done = apply(shop, h);
        if (needNothing.contains(kindOf(h))) {
            QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
            return;
        }
        QVERIFY2(!done, "speaks of something that is not there");
        QVERIFY2(done.error().rule == QStringLiteral("ledger-fold") || done.error().rule == QStringLiteral("ledger-catalogue"),
                 qPrintable(done.error().rule));
        QVERIFY2(done.error().reason.startsWith(QStringLiteral("Event 1 (`%1`) ").arg(kindOf(h))) ||
                     done.error().reason.contains(QStringLiteral("event 1 ")),
                 qPrintable(done.error().reason));
        QVERIFY(!done.error().remedy.isEmpty());
        QCOMPARE(World::digestOf(shop), before);
    }

    void aPrinterButNoJob() {
        auto catalogue = tinyCatalogue();
        Shop shop(catalogue);
        QVERIFY(apply(shop, act::CatalogueRead{catalogue->hash, catalogue->files}));
        const QByteArray before = World::digestOf(shop);
        const auto missed = [&](const Happening& h) {
            const auto done = apply(shop, h);
            return done ? text("nothing") : done.error().place;
        };
        QCOMPARE(missed(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}), text("J1"));
        QCOMPARE(missed(act::PrintOpening{{text("bay-1"), text("J1"), text("fine"), interlude::tests::at(-30), Minutes(120)}}), text("J1"));
        QCOMPARE(missed(act::SpoolLoaded{text("P-1"), text("bay-2"), Role::Part}), text("P-1"));
        QCOMPARE(World::digestOf(shop), before);
    }

    void aSpoolThatIsInNoPrinterComesOffNone() {
        World w;
        Shop shop = w.replayed();
        const QByteArray before = World::digestOf(shop);
        const auto done = apply(shop, act::SpoolUnloaded{text("P-1"), text("cabinet")});
        QVERIFY(!done);
        QCOMPARE(done.error().rule, text("ledger-fold"));
        QCOMPARE(done.error().place, text("P-1"));
        QCOMPARE(World::digestOf(shop), before);
    }

    void stepsThatTheSessionDoesNotHave() {
        World w;
        w.tell(w.startJ2(1), 1);
        act::StepConfirmed confirmed;
        confirmed.session = 1;
        confirmed.step = text("dance");
        act::StepSkipped skipped{1, text("dance"), {}};
        for (const Happening& h : QList<Happening>{act::StepStarted{1, text("dance")}, confirmed, skipped, act::TakenBack{1, text("mount"), text("x")}}) {
            Shop shop = w.replayed();
            const QByteArray before = World::digestOf(shop);
            const auto done = apply(shop, h, 2);
            QVERIFY2(!done, qPrintable(kindOf(h)));
            QVERIFY2(done.error().reason.contains(QStringLiteral("which is not known")), qPrintable(done.error().reason));
            QCOMPARE(World::digestOf(shop), before);
        }
    }

    void whatIsBroughtTwice() {
        World w;
        w.tell(w.startJ2(1), 1);
        Spool spool = w.spool("P-1");
        Nozzle nozzle = w.nozzle("N-2");
        const Job job = w.job("J1");
        const Happening session = act::SessionStarted{1, text("bay-1"), w.session().changeover, {}, false};
        for (const Happening& h : QList<Happening>{act::SpoolOpening{spool}, act::SpoolReceived{spool}, act::NozzleOpening{nozzle},
                                                   act::NozzleReceived{nozzle}, act::JobOpening{job}, act::JobAdded{job},
                                                   act::Imported{text("a.csv"), {spool}, {}, {}}, act::Imported{text("a.csv"), {}, {nozzle}, {}},
                                                   act::Imported{text("a.csv"), {}, {}, {job}}, session}) {
            Shop shop = w.replayed();
            const QByteArray before = World::digestOf(shop);
            const auto done = apply(shop, h, 2);
            QVERIFY2(!done, qPrintable(kindOf(h)));
            QCOMPARE(done.error().rule, text("ledger-fold"));
            QVERIFY2(done.error().reason.contains(QStringLiteral("which is there already")), qPrintable(done.error().reason));
            QCOMPARE(World::digestOf(shop), before);
        }
    }

    void aNozzleThatAnOpeningCallsMountedLiesOnTheShelf() {
        // Which printer wears it, the setup says; before that it is nowhere else.
        Shop shop(tinyCatalogue());
        Nozzle n;
        n.serial = text("N-50");
        n.type = text("h04");
        n.where = NozzleWhere::Mounted;
        QVERIFY(apply(shop, act::NozzleOpening{n}));
        QCOMPARE(shop.stock().nozzles.value(text("N-50")).where, NozzleWhere::Shelf);
    }
};

INTERLUDE_TEST(StrangersTest)
#include "strangers_test.moc"
