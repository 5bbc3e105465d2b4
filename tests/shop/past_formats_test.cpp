// Ledgers of every past format, checked in, must open to the shop that they meant when they were written. `ledgers/format-1`
// was written by the first version, with every kind of event that it knew; never write it anew, add another file beside it.
// One thing in `format-1.json` was not what the ledger meant and was put right by hand: a jump of the clock during a pause is
// one for that session, too.
//
// To write the ledger of a new format: INTERLUDE_WRITE_FIXTURE=FOLDER, and let this test run.

#include "model/catalogue/reader.h"
#include "model/ledger/canonical_json.h"
#include "model/ledger/chain.h"
#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>

using namespace interlude;
using namespace interlude::tests;

namespace {

const QString folder = QStringLiteral(INTERLUDE_SOURCE_DIR "/tests/shop/ledgers/");


QByteArray contentOf(const QString& name) {
    QFile f(folder + name);
    if (!f.open(QIODevice::ReadOnly))
        qFatal("%s cannot be read", qPrintable(f.fileName()));
    return f.readAll();
}

/// `format-1.jsonl`: a line for each event, its hash in hex, a blank, its canonical bytes.
QList<Link> linksOf(const QString& name) {
    QList<Link> out;
    for (const QByteArray& line : contentOf(name).split('\n'))
        if (!line.isEmpty())
            out.append({out.size() + 1, line.mid(65), QByteArray::fromHex(line.left(64))});
    return out;
}

/// Where `now` says something else than `then`, or nothing; what it says beyond `then` is new and does not matter.
QString firstDifference(const QJsonValue& then, const QJsonValue& now, const QString& path = {}) {
    if (then.isObject() && now.isObject()) {
        const QJsonObject a = then.toObject(), b = now.toObject();
        for (auto it = a.begin(); it != a.end(); ++it)
            if (const QString d = firstDifference(it.value(), b.value(it.key()), path + QLatin1Char('/') + it.key()); !d.isEmpty())
                return d;
        return {};
    }
    if (then.isArray() && now.isArray() && then.toArray().size() == now.toArray().size()) {
        for (qsizetype i = 0; i < then.toArray().size(); ++i)
            if (const QString d = firstDifference(then[i], now[i], path + QLatin1Char('/') + QString::number(i)); !d.isEmpty())
                return d;
        return {};
    }
    return then == now ? QString() : path;
}

/// A history in which every kind happens, on the small yard of the tests of the catalogue.
class Story {
public:
    Story() : m_world(read()) {}

    const EventStore& tell();
    const Shop& shop() const { return m_world.shop(); }
    static CataloguePtr read() {
        const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/tests/catalogue/base"));
        if (!reading.catalogue)
            qFatal("the small yard cannot be read");
        return reading.catalogue;
    }

private:
    void beginning();
    void stock();
    void plans();
    void session();
    void end();
    Event say(const Happening& h) { return m_world.force(h, m_minute += 2); }
    Instant now() const { return interlude::tests::at(m_minute); }

    World m_world;
    int m_minute = 0;
};

void Story::beginning() {
    say(act::ExampleStarted{Milliseconds(-86400000)});
    say(act::ProgramStarted{text("0.1.0")});
    say(act::PrintOpening{{text("bay-2"), text("7401"), {}, now() - Minutes(30), Minutes(61)}});
    say(act::PrintEnded{text("bay-2"), PrintOutcome::Good, true, cm3(4), {}, text("fine")});
    say(act::PartRemoved{text("bay-2")});
    Spool s;
    s.id = text("S-70");
    s.material = text("pa-black");
    s.lot = text("L0901");
    s.left = grams(750);
    s.tare = grams(240);
    Nozzle n;
    n.serial = text("N-70");
    n.type = text("h04");
    n.place = text("bench");
    Job j;
    j.id = text("8001");
    j.variants = {{{}, {}, Minutes(45), {}, {}, {}}};
    j.variants[0].setup.label = text("B");
    say(act::Imported{text("more.csv"), {s}, {n}, {j}});
}

void Story::stock() {
    Spool s;
    s.id = text("S-50");
    s.material = text("pa-black");
    s.lot = text("L0900 – März");
    s.left = grams(1000);
    s.leftSe = grams(5);
    s.tare = grams(250);
    s.place = text("bench");
    s.expires = now() + Minutes(500000);
    say(act::SpoolReceived{s});
    say(act::SpoolWeighed{s.id, grams(1200), grams(251), grams(2)});
    say(act::SpoolDried{s.id, celsius(80), now() - Minutes(200), now() - Minutes(3)});
    say(act::SpoolMoved{s.id, text("cabinet-1"), false});
    say(act::SpoolUnloaded{text("S-40"), text("cabinet-1")});
    say(act::SpoolLoaded{text("S-40"), text("bay-1"), Role::Support});
    say(act::SpoolRetired{text("S-70"), text("damp")});
    Nozzle n;
    n.serial = text("N-90");
    n.type = text("h04");
    n.place = text("bench");
    say(act::NozzleReceived{n});
    say(act::NozzleMeasured{n.serial, Length::fromMicrometres(407), text("vernier")});
    say(act::NozzleUseStated{text("N-032"), {true, cm3(5), cm3(700)}});
    say(act::NozzleRetired{n.serial, text("bent")});
    say(act::DowntimeBegun{text("bay-2"), text("belt"), now() + Minutes(60)});
    say(act::DowntimeEnded{text("bay-2")});
    OpeningSetup setup;
    setup.printer = text("bay-2");
    setup.label = text("B");
    say(act::PrinterDeclared{text("bay-2"), setup, text("found so")});
    say(act::PrintStarted{text("bay-2"), text("8001"), {}, Minutes(45)});
}

void Story::plans() {
    Job j = *shop().job(text("7412"));
    j.id = text("9001");
    j.variants[0].setup.part = text("pa-black");
    j.variants[0].print = Minutes(300);
    j.variants[0].printOn = {{text("bay-1"), Minutes(310)}};
    j.variants[0].setup.chamber = celsius(98);
    say(act::JobAdded{j});
    j.quantity = 3;
    say(act::JobChanged{j});
    j.id = text("9002");
    say(act::JobAdded{j});
    say(act::JobWithdrawn{text("9002"), text("cancelled")});
    say(act::PlanPublished{{text("cost"),
                            {{text("bay-1"), {{text("9001"), text("fine"), true, now(), now() + Minutes(60), now() + Minutes(360)}}}},
                            {{text("9001"), text("pa-black"), grams(230)}}}});
    for (const char* id : {"A1", "A2"})
        say(act::AbsenceEntered{{text(id), 1, now(), now() + Minutes(90), text("course")}});
    say(act::AbsenceWithdrawn{text("A1")});
    for (const char* id : {"D1", "D2"})
        say(act::DowntimePlanned{{text(id), text("bay-2"), now(), now() + Minutes(90), text("belt")}});
    say(act::DowntimeWithdrawn{text("D1")});
}

void Story::session() {
    const Job j = *shop().job(text("9001"));
    const Transition t = judgeTransition(shop().catalogue(), shop().stock(), requestFor(*shop().printer(text("bay-1")), j, j.variants.first()), now());
    const auto c = planChangeover(shop().catalogue(), shop().stock(), t, now(), {text("nozzle-life")});
    if (!c)
        qFatal("%s", qPrintable(sentence(c.error())));
    const act::Override o{text("skip"), text("done before"), text("ML")};
    say(act::SessionStarted{1, text("bay-1"), *c, {o}, false});
    bool first = true;
    for (const PlannedStep& p : c->steps) {
        if (p.step.external) {
            say(act::StepSkipped{1, p.step.id, o});
            continue;
        }
        if (!p.step.handsOn())
            say(act::StepStarted{1, p.step.id});
        const Event done = say(m_world.confirmation(p.step.id, m_minute));
        if (std::exchange(first, false)) {
            say(act::TakenBack{1, p.step.id, text("wrong row")});
            say(m_world.confirmation(p.step.id, m_minute));
            say(act::TemperatureRead{1, Sensor::Chamber, celsius(71), text("vernier")});
            say(act::ProblemReported{1, p.step.id, text("latch is stiff"), false, {}});
            say(act::SessionPaused{1, text("lunch"), true});
            say(act::ClockJumped{Milliseconds(-7200000), Milliseconds(90000)});
            say(act::SessionResumed{1, {{text("part"), text("N-033")}}});
        }
        if (p.step.effect == Effect::Align)
            say(act::Corrected{1, done.sequence, text("X offset"), text("0.05 mm"), text("-0.05 mm"), text("sign")});
    }
    say(act::SessionFinished{1, text("released"), text("all well")});
    say(act::RecordIssued{1, 1, QString(64, QLatin1Char('b'))});
}

void Story::end() {
    say(act::PrintEnded{text("bay-1"), PrintOutcome::Failed, true, {}, {}, text("came off")});
    const Job j = *shop().job(text("7412"));
    const Transition t = judgeTransition(shop().catalogue(), shop().stock(), requestFor(*shop().printer(text("bay-1")), j, j.variants.first()), now());
    const auto c = planChangeover(shop().catalogue(), shop().stock(), t, now());
    if (!c)
        qFatal("%s", qPrintable(sentence(c.error())));
    say(act::SessionStarted{2, text("bay-1"), *c, {}, true});
    say(act::SessionStopped{2, text("end of shift")});
}

const EventStore& Story::tell() {
    beginning();
    stock();
    plans();
    session();
    end();
    return m_world.store();
}

void write(const QString& into) {
    Story story;
    QByteArray lines;
    (void)story.tell().read(0, [&](const Event& e) {
        lines += e.hash.toHex() + ' ' + *canonicalBytes(e) + '\n';
        return true;
    });
    for (const auto& [name, content] : {std::pair{"format-1.jsonl", lines}, std::pair{"format-1.json", World::digestOf(story.shop())}}) {
        QFile f(QDir(into).filePath(QString::fromLatin1(name)));
        if (!f.open(QIODevice::WriteOnly) || f.write(content) != content.size())
            qFatal("%s cannot be written", qPrintable(f.fileName()));
    }
}

} // namespace

class PastFormatsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() {
        if (qEnvironmentVariableIsSet("INTERLUDE_WRITE_FIXTURE"))
            write(qEnvironmentVariable("INTERLUDE_WRITE_FIXTURE"));
    }

    /// A kind that comes later belongs into a file of its own; then this list of files grows.
    void everyKindIsInAFile() {
        QSet<QString> there;
        for (const QString& name : QDir(folder).entryList({QStringLiteral("*.jsonl")}))
            for (const Link& link : linksOf(name))
                there.insert(eventOf(link.canonical)->kind);
        for (const Happening& h : everyKind())
            QVERIFY2(there.contains(kindOf(h)), qPrintable(kindOf(h)));
    }

    void opensToTheSameShop_data() {
        QTest::addColumn<QString>("name");
        for (const QString& name : QDir(folder).entryList({QStringLiteral("*.jsonl")}))
            QTest::newRow(qPrintable(name)) << name.chopped(6);
    }
    void opensToTheSameShop() {
        QFETCH(QString, name);
        ChainCheck chain(QStringLiteral("small-yard"));
        Shop shop; // the catalogue is read from the texts that the ledger keeps
        for (const Link& link : linksOf(name + QStringLiteral(".jsonl"))) {
            QVERIFY(!chain.next(link));
            auto e = eventOf(link.canonical);
            QVERIFY2(e, e ? "" : qPrintable(e.error().reason));
            e->hash = link.hash;
            const auto done = shop.apply(*e);
            QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
        }
        const QJsonObject then = QJsonDocument::fromJson(contentOf(name + QStringLiteral(".json"))).object();
        QVERIFY(then.size() > 10);
        QCOMPARE(firstDifference(then, stateJson(shop)), QString());
    }

    void theComparisonSeesADifference() {
        const QJsonObject then = QJsonDocument::fromJson(contentOf(QStringLiteral("format-1.json"))).object();
        QJsonObject now = then;
        QJsonArray jobs = then.value(QStringLiteral("jobs")).toArray();
        QJsonObject job = jobs[0].toObject();
        job.insert(QStringLiteral("rank"), 77);
        jobs[0] = job;
        now.insert(QStringLiteral("jobs"), jobs);
        now.insert(QStringLiteral("a-later-key"), 1);
        QCOMPARE(firstDifference(then, now), QStringLiteral("/jobs/0/rank"));
        now.remove(QStringLiteral("jobs"));
        QCOMPARE(firstDifference(then, now), QStringLiteral("/jobs"));
    }

    /// `photos` came after the first format.
    void anEventWithoutALaterMemberReadsAsItsDefault() {
        QJsonObject o = toPayload(act::ProblemReported{3, text("mount"), text("binds"), true, {QString(64, QLatin1Char('a'))}});
        o.remove(QStringLiteral("photos"));
        const auto read = fromPayload(QStringLiteral("problem-reported"), o);
        QVERIFY2(read, read ? "" : qPrintable(read.error().reason));
        QVERIFY(std::get<act::ProblemReported>(*read).photos.isEmpty());
        QCOMPARE(std::get<act::ProblemReported>(*read).note, text("binds"));
        o.insert(QStringLiteral("stranger"), 1); // what a later version wrote must not be lost without a word
        QVERIFY(!fromPayload(QStringLiteral("problem-reported"), o));
    }
};

INTERLUDE_TEST(PastFormatsTest)
#include "past_formats_test.moc"
