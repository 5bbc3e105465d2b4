#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// "tool key x2 @bench: note", with "!" when it is missing.
QStringList lines(const QList<PickItem>& items, const QString& kind = {}) {
    QStringList out;
    for (const PickItem& i : items)
        if (kind.isEmpty() || i.kind == kind)
            out.append(QStringLiteral("%1 %2 x%3 @%4: %5%6")
                           .arg(i.kind, i.id)
                           .arg(i.count)
                           .arg(i.place, i.note, i.missing ? QStringLiteral("!") : QString()));
    return out;
}

SmallShop shopForPrint(const QStringList& steps) {
    SmallShop shop;
    shop.nozzle("P2", "p04", 400, "polycarbonates");
    shop.spool("PC1", "pc", 640);
    shop.bay().support = {};
    shop.request.partVolume = cm3(351);
    shop.steps(steps);
    return shop;
}

} // namespace

class PickListTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void nozzlesAndSpools() {
        SmallShop shop = shopForPrint({"a 1m"});
        QCOMPARE(lines(shop.planned().pickList),
                 QStringList({"nozzle P2 x1 @rack: 600 cm³ of life left",
                              "spool PC1 x1 @cabinet: 640 g left, 355 g needed, lot L-PC1"})); // 351 + 4 of purge
        shop.stock.nozzles["P2"].run.known = false;
        shop.stock.nozzles["P2"].toBeCleaned = true;
        shop.stock.spools["PC1"].left.reset();
        shop.material("pc").exposureLimit = Minutes(60);
        shop.stock.spools["PC1"].exposedFrom = shop.now - std::chrono::hours(2);
        shop.stock.spools["PC1"].lot.clear();
        QCOMPARE(lines(shop.planned().pickList),
                 QStringList({"nozzle P2 x1 @rack: no history, clean it first",
                              "spool PC1 x1 @cabinet: weight not known, 355 g needed, must dry first"}));
    }

    void theSpoolThatIsLoadedIsNotFetched() {
        SmallShop shop = shopForPrint({"a 1m"});
        shop.want("abs", "p04");
        QCOMPARE(lines(shop.planned().pickList), QStringList());
    }

    void toolsTheMostThatOneStepNeeds() {
        SmallShop shop = shopForPrint({"a 1m tools=key,key", "b 1m tools=key,lamp", "c 1m tools=ghost"});
        shop.catalogue.fleet.tools = {{"key", "Key", "bench", 2}, {"lamp", "Lamp", "bench", 1}};
        QCOMPARE(lines(shop.planned().pickList, "tool"),
                 QStringList({"tool key x2 @bench: ", "tool lamp x1 @bench: ", "tool ghost x1 @: !"}));
        shop.catalogue.fleet.tools[0].quantity = 1;
        QCOMPARE(lines(shop.planned().pickList, "tool").first(), QStringLiteral("tool key x2 @bench: the shop has 1!"));
    }

    void consumablesAreSummed() {
        SmallShop shop = shopForPrint({"a 1m use=wipe:2", "b 1m use=wipe:3,pad:1", "c 1m use=wipe:9 when=long-idle"});
        shop.catalogue.fleet.consumables = {{"wipe", "Wipe", "bench"}};
        QCOMPARE(lines(shop.planned().pickList, "consumable"),
                 QStringList({"consumable wipe x5 @bench: ", "consumable pad x1 @: !"}));
    }

    void aFreshCoverOnce() {
        SmallShop shop = shopForPrint({"a 1m"});
        shop.type().platformCover = QStringLiteral("sheet");
        QCOMPARE(lines(shop.planned().pickList, "consumable"), QStringList({"consumable sheet x1 @: a fresh one"}));
        shop.steps({"a 1m use=sheet:1"});
        QCOMPARE(lines(shop.planned().pickList, "consumable"), QStringList({"consumable sheet x1 @: a fresh one"}));
        shop.bay().platformCover = QStringLiteral("fresh");
        shop.steps({"a 1m"});
        QCOMPARE(lines(shop.planned().pickList, "consumable"), QStringList());
    }

    void instrumentsWithTheirCalibration() {
        SmallShop shop = shopForPrint({"a 1m read=old", "b 1m read=new", "c 1m read=bare", "d 1m read=ghost"});
        const QDate today = toZone(shop.now, shop.catalogue.fleet.zone).date();
        shop.catalogue.fleet.instruments = {{"old", "Old", "bench", {}, today.addDays(-1)},
                                            {"new", "New", "bench", {}, today},
                                            {"bare", "Bare", "bench", {}, {}}};
        const QString yesterday = today.addDays(-1).toString(Qt::ISODate), due = today.toString(Qt::ISODate);
        QCOMPARE(lines(shop.planned().pickList, "instrument"),
                 QStringList({"instrument old x1 @bench: calibration overdue since " + yesterday,
                              "instrument new x1 @bench: calibration due " + due,
                              "instrument bare x1 @bench: calibration date not stated", "instrument ghost x1 @: !"}));
    }

    void protectionForEverybody() {
        SmallShop shop = shopForPrint({"a 1m wear=heat-gloves,mask", "b 1m 2p wear=heat-gloves"});
        QCOMPARE(lines(shop.planned().pickList, "protection"),
                 QStringList({"protection heat-gloves x2 @: ", "protection mask x1 @: "}));
    }
};

INTERLUDE_TEST(PickListTest)
#include "pick_list_test.moc"
