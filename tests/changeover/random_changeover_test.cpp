// Random step libraries, setups and stocks: what every plan must fulfil, and that JSON loses nothing.
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include "model/ledger/canonical_json.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QTest>

#include <random>

using namespace interlude;
using namespace interlude::tests;

namespace {

class Dice {
public:
    explicit Dice(unsigned seed) : m_engine(seed) {}
    int to(int most) { return static_cast<int>(m_engine() % static_cast<unsigned>(most + 1)); }
    bool one(int in) { return to(in - 1) == 0; }

private:
    std::mt19937 m_engine;
};

const QStringList effects{"remove-part", "unload-part", "remove-nozzle-part", "mount-nozzle-part", "load-part",
                          "purge-part", "fit-cover", "clean-out", "clear-wiper", "align"};
const QStringList terms{"part-material", "part-nozzle", "hotter", "cooler", "clean-out=mandatory", "part-lying",
                        "long-idle", "purge=part", "support=wanted"};

/// `after` mostly points backwards in the file, sometimes forwards; never in a circle, because of the hidden rank.
QStringList library(Dice& dice) {
    const int n = 3 + dice.to(17);
    QList<int> rank;
    for (int i = 0; i < n; ++i) rank.append(dice.to(1000));
    QStringList lines;
    for (int i = 0; i < n; ++i) {
        QString line = QStringLiteral("s%1 %2m").arg(i).arg(dice.to(12));
        if (dice.one(4)) line += QStringLiteral(" wait");
        else if (dice.one(6)) line += QStringLiteral(" 2p");
        if (dice.one(8)) line += QStringLiteral(" ext");
        if (dice.one(3)) line += QStringLiteral(" effect=") + effects[dice.to(static_cast<int>(effects.size()) - 1)];
        if (dice.one(3)) line += QStringLiteral(" when=") + terms[dice.to(static_cast<int>(terms.size()) - 1)];
        if (dice.one(4)) line += QStringLiteral(" tools=key,lamp");
        if (dice.one(6)) line += QStringLiteral(" use=wipe:2 read=gauge wear=gloves");
        QStringList after;
        for (int k = 0; k < n; ++k)
            if (rank[k] < rank[i] && dice.one(5)) after.append(QStringLiteral("s%1").arg(k));
        if (!after.isEmpty()) line += QStringLiteral(" after=") + after.join(QLatin1Char(','));
        lines.append(line);
    }
    return lines;
}

SmallShop randomShop(unsigned seed) {
    Dice dice(seed);
    SmallShop shop;
    for (int i = 0; i < 3; ++i)
        shop.nozzle(QStringLiteral("N%1").arg(i), "p04", dice.one(4) ? -1 : dice.to(900),
                    dice.one(2) ? "polycarbonates" : dice.one(2) ? "styrenics" : "");
    shop.spool("PC1", "pc", 200 + dice.to(800));
    shop.spool("ASA1", "asa", 200 + dice.to(800));
    shop.want(dice.one(2) ? "pc" : dice.one(2) ? "asa" : "abs", "p04");
    if (dice.one(2)) shop.request.wanted.support = "acr", shop.request.wanted.supportNozzle = "s04";
    shop.request.partVolume = cm3(dice.to(150));
    shop.request.envelope = Envelope{Length::fromMm(dice.to(300)), Length::fromMm(10), Length::fromMm(20)};
    shop.request.notFree = {"N2", "X1", "A7"};
    shop.bay().activity = dice.one(3) ? Activity::PartLying : dice.one(3) ? Activity::Printing : Activity::Idle;
    shop.bay().lastPrintEnd = shop.now - std::chrono::hours(dice.to(500));
    if (dice.one(2)) shop.residue("abs", 60 + dice.to(40), 265);
    if (dice.one(5)) shop.residue("", 60, 200);
    shop.type().start = Minutes(dice.to(8));
    shop.type().partRemoval = Minutes(dice.to(8));
    shop.printer().unattended = dice.one(6);
    shop.steps(library(dice));
    return shop;
}

const Segment* firstWith(const Changeover& c, const StepId& id) {
    for (const Segment& s : c.segments)
        if (s.steps.contains(id)) return &s;
    return nullptr;
}

void checkSegments(const Changeover& c, bool unattended) {
    Minutes at{0}, hands{0}, waits{0}, removal{0};
    for (const Segment& s : c.segments) {
        QVERIFY(s.end > s.start);
        if (s.kind == SegmentKind::Preparation) {
            QVERIFY(s.start == Minutes(0) && s.end == c.preparation);
            continue;
        }
        QCOMPARE(s.start, at); // no overlap and no hole
        at = s.end;
        QVERIFY(s.kind != SegmentKind::Waiting || s.people == 0);
        QVERIFY(s.kind != SegmentKind::HandsOn || (s.people > 0 && !unattended));
        if (s.kind == SegmentKind::PartRemoval) removal += s.end - s.start;
        if (s.kind == SegmentKind::Waiting) waits += s.end - s.start;
        if (s.kind == SegmentKind::HandsOn) hands += s.people * (s.end - s.start);
        for (const StepId& id : s.steps) QVERIFY(c.step(id));
    }
    QCOMPARE(removal, c.partRemoval);
    QCOMPARE(waits, c.waiting);
    QCOMPARE(hands, c.handsOn);
    QCOMPARE(at, c.partRemoval + c.internal);
}

void checkSteps(const Changeover& c) {
    QSet<StepId> done;
    Minutes handsFree{0};
    for (const PlannedStep& p : c.steps) {
        QVERIFY(!done.contains(p.step.id));
        QCOMPARE(p.end - p.start, p.planned);
        for (const StepId& id : p.after) {
            const PlannedStep* before = c.step(id);
            QVERIFY(before);
            if (before->step.external != p.step.external) continue; // each on its own clock; preparation comes first
            QVERIFY(before->end <= p.start);
            QVERIFY2(done.contains(id), qPrintable(p.step.id + " before " + id)); // so the order has no circle
        }
        if (p.step.handsOn() && !p.step.external) {
            QVERIFY(p.start >= handsFree); // one pair of hands
            handsFree = p.end;
        }
        if (p.planned > Minutes(0)) QVERIFY2(firstWith(c, p.step.id), qPrintable(p.step.id));
        done.insert(p.step.id);
    }
}

/// The chain has no hole: each begins when the one before ends, and its minutes are the whole length.
void checkCriticalPath(const Changeover& c) {
    Minutes sum{0}, length{0};
    for (const PlannedStep& p : c.steps) {
        QCOMPARE(p.critical, c.criticalPath.contains(p.step.id));
        if (!p.step.external) length = std::max(length, p.end);
    }
    for (const StepId& id : c.criticalPath) {
        QVERIFY(c.step(id) && !c.step(id)->step.external);
        sum += c.step(id)->planned;
    }
    QVERIFY(sum <= length);
}

bool integersOnly(const QJsonValue& v) {
    if (v.isDouble()) return v.toDouble() == std::trunc(v.toDouble());
    if (v.isArray())
        for (const QJsonValue& item : v.toArray())
            if (!integersOnly(item)) return false;
    if (v.isObject()) {
        const QJsonObject o = v.toObject();
        for (auto it = o.begin(); it != o.end(); ++it)
            if (!integersOnly(it.value())) return false;
    }
    return true;
}

} // namespace

class RandomChangeoverTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyPlanIsWellFormed() {
        int plans = 0, withRemoval = 0, withPreparation = 0;
        for (unsigned seed = 0; seed < (longRun() ? 20000u : 1500u); ++seed) {
            const SmallShop shop = randomShop(seed);
            const Outcome<Changeover> c = shop.plan({"nozzle-life", "spool-stock"});
            if (!c) {
                QVERIFY(!c.error().reason.isEmpty());
                continue;
            }
            ++plans;
            withRemoval += c->partRemoval > Minutes(0);
            withPreparation += c->preparation > Minutes(0);
            checkSegments(*c, shop.catalogue.fleet.printers[0].unattended);
            checkSteps(*c);
            checkCriticalPath(*c);
            if (QTest::currentTestFailed()) QFAIL(qPrintable(QStringLiteral("seed %1").arg(seed)));
        }
        QVERIFY2(plans > 500 && withRemoval > 100 && withPreparation > 100, qPrintable(QString::number(plans)));
    }

    void jsonLosesNothing() {
        int plans = 0;
        for (unsigned seed = 0; seed < (longRun() ? 2000u : 200u); ++seed) {
            SmallShop shop = randomShop(seed);
            shop.catalogue.procedures.steps.append(
                step("all 2m scan=printer,nozzle-in-part,place read=gauge use=wipe:2 tools=key wear=gloves power=off"));
            StepTemplate& s = shop.catalogue.procedures.steps.last();
            s.cautions.append({SignalWord::Danger, "electricity", "Isolate — “sure?”"});
            s.confirm.answers.append({"Sure?", true});
            s.confirm.answers.append(AnswerWanted{"Noted?", {}});
            s.onlyBelow = celsius(42.5);
            const Outcome<Changeover> c = shop.plan({"nozzle-life", "spool-stock"});
            if (!c) continue;
            ++plans;
            const QJsonObject o = toJson(*c);
            QVERIFY(integersOnly(o));
            QVERIFY(canonicalJson(o).has_value());
            // through bytes, as the ledger keeps it
            const QJsonObject kept = QJsonDocument::fromJson(QJsonDocument(o).toJson()).object();
            const Outcome<Changeover> back = changeoverFromJson(kept);
            QVERIFY2(back.has_value(), back ? "" : qPrintable(back.error().reason));
            QCOMPARE(toJson(*back), o);
            QCOMPARE(back->steps.size(), c->steps.size());
            for (int i = 0; i < c->steps.size(); ++i) {
                QVERIFY(back->steps[i].step == c->steps[i].step);
                QVERIFY(back->steps[i].expectedScans == c->steps[i].expectedScans);
                QVERIFY(back->steps[i].start == c->steps[i].start && back->steps[i].target == c->steps[i].target);
            }
            QCOMPARE(back->transition.request.now.part, c->transition.request.now.part);
            QVERIFY(back->transition.request.notFree == c->transition.request.notFree);
            for (int i = 0; i < c->transition.purges.size(); ++i) {
                QVERIFY(back->transition.purges[i].theta == c->transition.purges[i].theta); // to the last bit
                QVERIFY(back->transition.purges[i].residual == c->transition.purges[i].residual);
            }
            QCOMPARE(inWords(back->segments), inWords(c->segments));
        }
        QVERIFY(plans > 50);
    }

    void brokenJsonNamesItsField() {
        SmallShop shop;
        shop.want("abs", "p04", "acr", "s04");
        shop.steps({"a 2m scan=printer read=gauge", "b 1m after=a"});
        const QJsonObject good = toJson(shop.planned());
        QVERIFY(changeoverFromJson(good).has_value());
        QCOMPARE(changeoverFromJson({}).error().place, QStringLiteral("transition"));

        const auto broken = [&](const QString& key, const QJsonValue& value) {
            QJsonObject o = good;
            o.insert(key, value);
            const auto c = changeoverFromJson(o);
            return c ? QStringLiteral("accepted") : c.error().place;
        };
        QCOMPARE(broken("internal-min", 1.5), QStringLiteral("internal-min"));
        QCOMPARE(broken("internal-min", "3"), QStringLiteral("internal-min"));
        QCOMPARE(broken("segments", QJsonObject()), QStringLiteral("segments"));
        QCOMPARE(broken("critical-path", QJsonArray({1})), QStringLiteral("critical-path[0]"));
        QCOMPARE(broken("colour", "red"), QStringLiteral("colour"));

        QJsonArray steps = good["steps"].toArray();
        QJsonObject second = steps[1].toObject(), inner = second["step"].toObject();
        inner["effect"] = "levitate";
        second["step"] = inner;
        steps[1] = second;
        QCOMPARE(broken("steps", steps), QStringLiteral("steps[1].step.effect"));
    }

    void anyOneValueSpoiledIsRefusedOrHarmless() {
        // every leaf in turn becomes null, a text and a huge number: a finding or a changeover, never a crash
        SmallShop shop = randomShop(7);
        shop.want("abs", "p04", "acr", "s04");
        const QByteArray good = QJsonDocument(toJson(shop.planned({"spool-stock", "nozzle-life"}))).toJson(QJsonDocument::Compact);
        int refusedOnes = 0;
        for (qsizetype at = good.indexOf(':'); at >= 0; at = good.indexOf(':', at + 1)) {
            qsizetype end = at + 1;
            if (!QByteArrayView("0123456789tfn-").contains(good[end])) continue;
            while (!QByteArrayView(",}]").contains(good[end])) ++end;
            for (const char* bad : {"\"x\"", "[]", "1e300", "-1e300", "0.5"}) {
                const QByteArray text = good.left(at + 1) + bad + good.mid(end);
                const QJsonObject o = QJsonDocument::fromJson(text).object();
                if (o.isEmpty()) continue;
                const auto c = changeoverFromJson(o);
                refusedOnes += !c;
                if (!c) QVERIFY(!c.error().place.isEmpty());
            }
        }
        QVERIFY(refusedOnes > 100);
    }
};

INTERLUDE_TEST(RandomChangeoverTest)
#include "random_changeover_test.moc"
