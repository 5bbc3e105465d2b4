#include "model/clock/length.h"
#include "model/records/record_change.h"
#include "model/records/record_entries.h"
#include "model/records/record_steps.h"
#include "model/records/wording.h"
#include "tests/harness/run_tests.h"
#include "tests/records/told.h"

#include <QJsonArray>
#include <QJsonDocument>

using namespace interlude;
using namespace interlude::tests;

namespace {

QString valueOf(const QList<RecordLine>& lines, const QString& label) {
    for (const RecordLine& l : lines)
        if (l.label == label) return l.value;
    return QStringLiteral("(no line %1)").arg(label);
}

/// A catalogue of one instrument and a step of one reading, for the finer points.
struct Bare {
    Catalogue catalogue;
    PlannedStep planned;
    StepProgress progress;
    Bare() {
        Instrument gauge;
        gauge.id = QStringLiteral("g-1");
        gauge.calibrated = QDate(2025, 3, 1);
        gauge.due = QDate(2026, 3, 1);
        catalogue.fleet.instruments = {gauge};
        ReadingWanted wanted;
        wanted.name = QStringLiteral("X offset");
        wanted.unit = QStringLiteral("mm");
        wanted.min = -0.1;
        wanted.max = 0.1;
        wanted.instrument = gauge.id;
        planned.step.confirm.readings = {wanted};
        progress.state = StepState::Done;
        progress.event = 7;
    }
    RecordEntry reading(qint64 thousandths, const QDate& on, const QString& instrument = QStringLiteral("g-1")) const {
        const Instant at = instantOf(QDateTime(on, QTime(12, 0), Qt::UTC));
        return readingEntry(catalogue, planned, {QStringLiteral("X offset"), thousandths, QStringLiteral("mm"), instrument, at});
    }
};

Correction correction(qint64 event, const QString& field, const QString& original, const QString& corrected) {
    Correction c;
    c.what = {1, event, field, original, corrected, QStringLiteral("misread")};
    c.who = QStringLiteral("RS");
    c.at = instantOf(QDateTime(QDate(2026, 3, 2), QTime(14, 5), Qt::UTC));
    return c;
}

} // namespace

class RecordTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void saysWhatWasDone();
    void saysWhatIsUnusual();
    void freezesWhatItRestsOn();
    void aSessionStoppedHalfWay();
    void whatWasScannedCountsNotWhatWasPlanned();
    void aSessionEnteredLate();
    void overridesAndWhoApproved();
    void theEmptyChecklist();
    void readingsAndTheirInstruments();
    void correctionsStandBesideTheOriginal();
    void wordsAndFigures();
    void asJson();
    void anIdleSupportThatIsTakenOutDoesNotStay();
    void anIdleSupportThatStaysIsNotTakenOut();
    void aMinuteIsAMinuteWhenTheClockWasSet();
    void onlyReadingsAreCalibrationResults();
    void whoeverStandsOnItIsNamed();
};

void RecordTest::saysWhatWasDone() {
    Told told;
    told.wholeStory();
    const Record r = told.record();
    const Changeover& c = told.session().changeover;
    const TransitionRequest& request = c.transition.request;
    QCOMPARE(r.session, 1);
    QCOMPARE(r.revision, 1);
    QCOMPARE(r.state, QStringLiteral("finished"));
    QVERIFY(!r.blank);
    QVERIFY(r.example);
    QVERIFY(r.printer.contains(request.now.id));
    QVERIFY(valueOf(r.head, QStringLiteral("Job")).startsWith(request.job));
    QVERIFY(valueOf(r.head, QStringLiteral("Part material")).contains(request.wanted.part));
    QVERIFY(valueOf(r.head, QStringLiteral("Part material")).contains(request.now.part.loaded));
    QVERIFY(valueOf(r.head, QStringLiteral("Minutes")).contains(lengthText(c.internal + c.partRemoval)));
    // What was decided, by whom and when.
    QCOMPARE(r.disposition, QStringLiteral("released · first layer good · Tove Orrin (TO), %1")
                                .arg(wording::localTime(*told.session().ended, told.shop().catalogue().fleet.zone)));

    QCOMPARE(r.steps.size(), c.steps.size());
    for (qsizetype i = 0; i < r.steps.size(); ++i) {
        const RecordStep& s = r.steps[i];
        QCOMPARE(s.number, static_cast<int>(i) + 1);
        QCOMPARE(s.title, c.steps[i].step.title);
        QVERIFY2(!s.begun.isEmpty() && !s.ended.isEmpty() && !s.actual.isEmpty(), qPrintable(s.title));
        QVERIFY(s.who == QStringLiteral("ML"));
        QVERIFY(s.state.isEmpty() && !s.late && !s.skipped);
        const auto& confirm = c.steps[i].step.confirm;
        qsizetype readings = 0;
        for (const ReadingWanted& w : confirm.readings) readings += w.times;
        QVERIFY(s.entries.size() >= confirm.scans.size() + confirm.answers.size() + readings);
        for (const RecordEntry& e : s.entries) QVERIFY2(e.event == s.event && !e.field.isEmpty(), qPrintable(s.title));
    }
    // Every nozzle that the changeover touches, with what had run through it.
    const NozzleChange& part = c.transition.nozzles.first();
    QVERIFY(part.exchange);
    QVERIFY(valueOf(r.nozzles, QStringLiteral("Removed, part")).startsWith(part.out));
    QVERIFY(valueOf(r.nozzles, QStringLiteral("Mounted, part")).startsWith(part.in));
    for (const RecordLine& l : r.nozzles) QVERIFY2(l.value.contains(QStringLiteral("before")) && l.value.contains(QStringLiteral("after")), qPrintable(l.value));
    for (const SpoolChange& s : c.transition.spools)
        if (s.load && s.role == Role::Part) {
            const QString lot = told.shop().stock().spools[s.in].lot;
            QCOMPARE(valueOf(r.materials, QStringLiteral("Loaded, part")), QStringLiteral("%1, lot %2").arg(s.in, lot));
        }
    QVERIFY(valueOf(r.cleanOut, QStringLiteral("Rule")).contains(QStringLiteral("going-up, margin 10 K")));
    QVERIFY(valueOf(r.cleanOut, QStringLiteral("Chamber")).contains(c.transition.chamber.reason));
    QVERIFY2(valueOf(r.cleanOut, QStringLiteral("What was done")).contains(QStringLiteral("by ML")), qPrintable(valueOf(r.cleanOut, QStringLiteral("What was done"))));
    QVERIFY(!r.calibration.isEmpty());
    for (const PlannedStep& s : c.steps)
        for (const Caution& caution : s.step.cautions)
            QVERIFY(r.cautions.contains(word(caution.word).toUpper() + QStringLiteral(": ") + caution.text));
}

void RecordTest::saysWhatIsUnusual() {
    Told told;
    told.wholeStory();
    const Record r = told.record();
    QCOMPARE(r.steps[told.typed].entries.first().remark, QStringLiteral("typed"));
    QCOMPARE(r.steps[3].takenBack.size(), 1);
    QVERIFY(r.steps[3].takenBack.first().contains(QStringLiteral("wrong row ticked")));
    QCOMPARE(r.problems.size(), 1);
    QVERIFY(r.problems.first().contains(QStringLiteral("latch of the door is stiff")));
    QVERIFY(r.problems.first().contains(told.step(4).step.title));
    QCOMPARE(r.interruptions.size(), 1);
    QVERIFY(r.interruptions.first().contains(QStringLiteral("end of shift")));
    QVERIFY(r.interruptions.first().contains(QStringLiteral("taken up by TO")));
    QVERIFY(r.interruptions.first().contains(QStringLiteral("confirmed as mounted: part ")));
    QCOMPARE(r.readings.size(), 1);
    QVERIFY(r.readings.first().contains(QStringLiteral("71.5 °C by TO with ct-1")));
    QVERIFY(r.people.contains(QStringLiteral("Mara Lind (ML)")));
    QVERIFY(r.people.contains(QStringLiteral("Tove Orrin (TO)")));
    QVERIFY(r.people.contains(QStringLiteral("Rurik Saal (RS)")));
    int corrected = 0;
    for (const RecordStep& s : r.steps)
        for (const RecordEntry& e : s.entries) {
            if (e.corrections.isEmpty()) continue;
            ++corrected;
            QCOMPARE(s.number, static_cast<int>(told.align) + 1);
            QCOMPARE(e.value, told.original()); // the original stays
            QVERIFY(e.corrections.first().corrected.startsWith(QStringLiteral("0.03")));
            QCOMPARE(e.corrections.first().who, QStringLiteral("RS"));
            QCOMPARE(e.corrections.first().reason, QStringLiteral("misread the scale"));
        }
    QCOMPARE(corrected, 1);
    QVERIFY(r.corrections.isEmpty());
    QVERIFY(r.calibration.first().value.startsWith(QStringLiteral("0.03")));
    QVERIFY(r.calibration.first().value.contains(QStringLiteral("(corrected)")));
}

void RecordTest::freezesWhatItRestsOn() {
    Told told;
    told.wholeStory();
    const Record r = told.record();
    const QString hash = QString::fromLatin1(told.shop().lastHash().toHex());
    QCOMPARE(valueOf(r.foot, QStringLiteral("Ledger hash")), hash);
    QCOMPARE(valueOf(r.foot, QStringLiteral("Ledger position")), QString::number(told.shop().lastSequence()));
    QCOMPARE(valueOf(r.foot, QStringLiteral("Catalogue SHA-256")), told.shop().catalogue().hash);
    QCOMPARE(valueOf(r.foot, QStringLiteral("Procedure version")), told.shop().catalogue().procedures.version);
    QVERIFY(valueOf(r.foot, QStringLiteral("Program")).contains(QStringLiteral(INTERLUDE_VERSION)));
    QCOMPARE(r.verificationText, QStringLiteral("interlude ledger northern-yard %1 %2").arg(told.shop().lastSequence()).arg(hash));
    // Once issued, a print of the same content is the same revision; see issue_test.cpp.
    told.tell(act::RecordIssued{1, 1, QString(64, QLatin1Char('a'))});
    QCOMPARE(told.record().revision, 1);
}

void RecordTest::aSessionStoppedHalfWay() {
    Told told;
    told.begin();
    for (qsizetype i = 0; i < 4; ++i) told.confirm(i);
    QCOMPARE(told.record().state, QStringLiteral("open, not finished"));
    QCOMPARE(told.record().steps[6].state, QStringLiteral("not yet done"));
    told.tell(act::SessionStopped{1, QStringLiteral("head does not heat")});
    const Record r = told.record();
    QCOMPARE(r.state, QStringLiteral("stopped half way"));
    QCOMPARE(r.steps[6].state, QStringLiteral("not done"));
    QVERIFY(r.steps[6].entries.isEmpty() && r.steps[6].ended.isEmpty());
    QVERIFY(r.disposition.contains(QStringLiteral("head does not heat")));
    // What was not reached is not said as done.
    QVERIFY(!r.finished);
    QCOMPARE(valueOf(r.nozzles, QStringLiteral("Mounted, part")), QStringLiteral("(no line Mounted, part)"));
    QVERIFY(valueOf(r.nozzles, QStringLiteral("To mount, part")).endsWith(QStringLiteral("NOT DONE")));
    QVERIFY(valueOf(r.materials, QStringLiteral("To load, part")).endsWith(QStringLiteral("NOT DONE")));
    QVERIFY2(valueOf(r.head, QStringLiteral("Platform cover")).endsWith(QStringLiteral("NOT DONE")), qPrintable(valueOf(r.head, QStringLiteral("Platform cover"))));
}

void RecordTest::whatWasScannedCountsNotWhatWasPlanned() {
    Told told;
    told.begin();
    SessionState s = told.session();
    const NozzleChange& change = s.changeover.transition.nozzles.first();
    const PlannedStep* mount = nullptr;
    for (const PlannedStep& step : s.changeover.steps)
        if (step.step.effect == Effect::MountNozzlePart) mount = &step;
    QVERIFY(mount && !mount->step.confirm.scans.isEmpty());
    StepProgress p;
    p.state = StepState::Done;
    p.event = 7;
    p.confirmed.scans = {{QStringLiteral("N-other"), false}};
    s.steps.insert(mount->step.id, p);
    const Record r = recordOf(told.shop(), s, told.bench().now());
    QVERIFY2(valueOf(r.nozzles, QStringLiteral("Mounted, part")).startsWith(QStringLiteral("N-other")), qPrintable(change.in));
}

void RecordTest::aSessionEnteredLate() {
    Told told;
    told.begin({}, true);
    told.confirm(0);
    const Record r = told.record();
    QVERIFY(r.steps[0].late);
    QVERIFY(valueOf(r.head, QStringLiteral("Carried out")).contains(QStringLiteral("entered late")));
}

void RecordTest::overridesAndWhoApproved() {
    Told told;
    const QString alone = overrideText(told.shop().catalogue(), {QStringLiteral("nozzle-life"), QStringLiteral("last of its type"), QString()}, QStringLiteral("ML"));
    QCOMPARE(alone, QStringLiteral("reason: last of its type; not approved by a second person"));
    const QString both = overrideText(told.shop().catalogue(), {QStringLiteral("nozzle-life"), QStringLiteral("last of its type"), QStringLiteral("JK")}, QStringLiteral("ML"));
    QCOMPARE(both, QStringLiteral("reason: last of its type; approved by Jon Kestrow (JK), as ML states"));
    // On the record, of the session and of a skipped step.
    SessionState s;
    s.startedBy = QStringLiteral("TO");
    s.overrides = {{QStringLiteral("spool-stock"), QStringLiteral("second spool ready"), QStringLiteral("JK")}};
    PlannedStep planned;
    planned.step.id = QStringLiteral("check");
    s.changeover.steps = {planned};
    StepProgress p;
    p.state = StepState::Skipped;
    p.who = QStringLiteral("TO");
    p.skipped = act::Override{QStringLiteral("skip"), QStringLiteral("no gauge here"), QString()};
    s.steps.insert(QStringLiteral("check"), p);
    // A warning at the start and a wait that was ended by what was seen are on it, too.
    s.changeover.transition.verdicts = {{Severity::Warning, QStringLiteral("drying"), QStringLiteral("Spool S-1 was dried 61 h ago"), QStringLiteral("dry it"), {}, false},
                                        {Severity::Mandatory, QStringLiteral("clean-out"), QStringLiteral("It is due"), {}, {}, false}};
    PlannedStep wait;
    wait.step.id = QStringLiteral("cool");
    wait.step.people = 0;
    s.changeover.steps.append(wait);
    StepProgress over;
    over.state = StepState::Done;
    over.confirmed.note = QStringLiteral("the printer shows it");
    s.steps.insert(wait.step.id, over);
    const Record r = recordOf(told.shop(), s, told.bench().now());
    QCOMPARE(r.warnings, QStringList{QStringLiteral("drying: Spool S-1 was dried 61 h ago; dry it")});
    QVERIFY(valueOf(r.head, QStringLiteral("Unusual")).contains(QStringLiteral("waits ended before their prediction 1")));
    QVERIFY(toText(r).contains(QStringLiteral("Spool S-1 was dried")));
    QCOMPARE(r.overrides, QStringList{QStringLiteral("spool-stock: reason: second spool ready; approved by Jon Kestrow (JK), as TO states")});
    QCOMPARE(r.steps.first().state, QStringLiteral("skipped"));
    QCOMPARE(r.steps.first().overrides, QStringList{QStringLiteral("skipped; reason: no gauge here; not approved by a second person")});
}

void RecordTest::theEmptyChecklist() {
    Told told;
    const Changeover c = told.usual();
    const Record r = checklistOf(told.shop(), c, told.bench().now());
    QVERIFY(r.blank && r.example);
    QCOMPARE(r.session, 0);
    QCOMPARE(r.steps.size(), c.steps.size());
    for (qsizetype i = 0; i < c.steps.size(); ++i) {
        const auto& step = c.steps[i].step;
        qsizetype lines = step.confirm.scans.size() + step.confirm.answers.size() + (step.onlyBelow ? 1 : 0);
        for (const ReadingWanted& w : step.confirm.readings) lines += w.times;
        QCOMPARE(r.steps[i].toFill.size(), lines);
        QCOMPARE(r.steps[i].cautions.size(), step.cautions.size());
        QVERIFY(r.steps[i].begun.isEmpty() && r.steps[i].who.isEmpty());
        if (!step.protection.isEmpty()) QVERIFY(r.steps[i].before.contains(QStringLiteral("wear")));
    }
    QVERIFY(valueOf(r.cleanOut, QStringLiteral("What is to do")).contains(QStringLiteral("planned")));
}

void RecordTest::readingsAndTheirInstruments() {
    const Bare bare;
    const RecordEntry good = bare.reading(-50, QDate(2026, 2, 28));
    QCOMPARE(good.value, QStringLiteral("−0.05 mm"));
    QCOMPARE(good.remark, QStringLiteral("limits −0.1 to 0.1 mm; with g-1, calibrated 2025-03-01"));
    QVERIFY(bare.reading(0, QDate(2026, 3, 2)).remark.contains(QStringLiteral("OVERDUE since 2026-03-01")));
    QVERIFY(!bare.reading(0, QDate(2026, 3, 1)).remark.contains(QStringLiteral("OVERDUE")));
    QVERIFY(bare.reading(101, QDate(2026, 1, 1)).remark.contains(QStringLiteral("OUTSIDE ITS LIMITS")));
    QVERIFY(bare.reading(-101, QDate(2026, 1, 1)).remark.contains(QStringLiteral("OUTSIDE ITS LIMITS")));
    for (const qint64 edge : {-100, 100}) QVERIFY(!bare.reading(edge, QDate(2026, 1, 1)).remark.contains(QStringLiteral("OUTSIDE")));
    QVERIFY(bare.reading(0, QDate(2026, 1, 1), QStringLiteral("x-9")).remark.contains(QStringLiteral("unknown instrument")));
    QVERIFY(!bare.reading(0, QDate(2026, 1, 1), QString()).remark.contains(QStringLiteral("with")));
}

void RecordTest::correctionsStandBesideTheOriginal() {
    Bare bare;
    bare.planned.step.confirm.readings[0].times = 2;
    const act::ReadingDone first{QStringLiteral("X offset"), 10, QStringLiteral("mm"), {}, {}};
    act::ReadingDone second = first;
    second.thousandths = 20;
    bare.progress.confirmed.readings = {first, second};
    QList<RecordEntry> entries = entriesOf(bare.catalogue, bare.planned, bare.progress);
    QCOMPARE(entries.size(), 2);
    QCOMPARE(entries[1].field, QStringLiteral("X offset 2"));
    const RecordEntry ended{QStringLiteral("ended"), QStringLiteral("10:42"), {}, QStringLiteral("ended"), 0, {}};
    addCorrections(entries,
                   {correction(7, QStringLiteral("X offset 2"), QStringLiteral("0.02 mm"), QStringLiteral("0.03 mm")),
                    correction(7, QStringLiteral("X offset 2"), QStringLiteral("0.03 mm"), QStringLiteral("0.04 mm")),
                    correction(7, QStringLiteral("ended"), QStringLiteral("10:42"), QStringLiteral("10:52")),
                    correction(7, QStringLiteral("colour"), QStringLiteral("red"), QStringLiteral("blue")),
                    correction(8, QStringLiteral("X offset"), QStringLiteral("0.01 mm"), QStringLiteral("9 mm"))},
                   {7}, {ended}, bare.catalogue);
    QCOMPARE(entries.size(), 4);
    QVERIFY(entries[0].corrections.isEmpty()); // event 8 is another's
    QCOMPARE(entries[1].value, QStringLiteral("0.02 mm"));
    QCOMPARE(entries[1].corrections.size(), 2);
    QCOMPARE(entries[1].corrections[1].corrected, QStringLiteral("0.04 mm"));
    QCOMPARE(entries[1].corrections[0].at, QStringLiteral("2026-03-02 14:05"));
    QCOMPARE(entries[2].value, QStringLiteral("10:42"));
    QCOMPARE(entries[3].value, QStringLiteral("red"));
    QCOMPARE(entries[3].corrections.first().corrected, QStringLiteral("blue"));
}

void RecordTest::wordsAndFigures() {
    const QTimeZone vienna("Europe/Vienna");
    const Instant evening = instantOf(QDateTime(QDate(2026, 3, 4), QTime(23, 58), vienna));
    QCOMPARE(wording::dayTime(evening, evening, vienna), QStringLiteral("23:58"));
    QCOMPARE(wording::dayTime(evening + Minutes(14), evening, vienna), QStringLiteral("Thu 00:12"));
    QCOMPARE(wording::localTime(evening, vienna), QStringLiteral("2026-03-04 23:58"));
    QCOMPARE(wording::elapsed(evening, evening + Seconds(61)), QStringLiteral("2 min"));
    QCOMPARE(lengthText(Minutes(125)), QStringLiteral("2 h 05 min"));
    QCOMPARE(wording::runVolume({false, {}, {}}), QStringLiteral("no history"));
    QCOMPARE(wording::runVolume({true, {}, {}}), QStringLiteral("0 cm³"));
    QCOMPARE(wording::runVolume({true, Volume::fromCm3(400), Volume::fromCm3(12)}), QStringLiteral("412 cm³ (12 cm³ of it abrasive)"));
    QCOMPARE(wording::celsius(Temperature::fromCelsius(-0.04)), QStringLiteral("0 °C"));
    QCOMPARE(wording::thousandths(-1234), QStringLiteral("−1.234"));
    ReadingWanted most;
    most.max = 43;
    most.unit = QStringLiteral("°C");
    QCOMPARE(wording::limits(most), QStringLiteral("at most 43 °C"));
}

void RecordTest::asJson() {
    Told told;
    told.wholeStory();
    const Record r = told.record();
    const QJsonObject o = QJsonDocument::fromJson(QJsonDocument(toJson(r)).toJson()).object();
    QCOMPARE(o.value(QStringLiteral("format")).toString(), QStringLiteral("interlude record 1"));
    QCOMPARE(o.value(QStringLiteral("session")).toInteger(), 1);
    QCOMPARE(o.value(QStringLiteral("example")).toBool(), true);
    const QJsonArray steps = o.value(QStringLiteral("steps")).toArray();
    QCOMPARE(steps.size(), r.steps.size());
    const QJsonArray entries = steps[told.align].toObject().value(QStringLiteral("entries")).toArray();
    QCOMPARE(entries.size(), r.steps[told.align].entries.size());
    const QByteArray text = QJsonDocument(o).toJson(QJsonDocument::Compact);
    for (const char* word : {"misread the scale", "end of shift", "wrong row ticked", "latch of the door", "released", "typed", "going-up"})
        QVERIFY2(text.contains(word), word);
    QVERIFY(text.contains(told.shop().lastHash().toHex()));
    QVERIFY(text.contains(told.original().toUtf8()));
}

/// The changeover of the story, to a job that leaves the support position unused.
static Changeover withoutSupport(const Told& told) {
    Changeover c = told.usual();
    Transition& t = c.transition;
    t.request.now.support.loaded = QStringLiteral("acr-clear");
    t.request.now.support.spool = QStringLiteral("S-40");
    t.request.wanted.support.clear();
    t.spools.removeIf([](const SpoolChange& s) { return s.role == Role::Support; });
    return c;
}

void RecordTest::anIdleSupportThatIsTakenOutDoesNotStay() {
    const Told told;
    Changeover c = withoutSupport(told);
    c.transition.spools.append({Role::Support, true, false, QStringLiteral("S-40"), {}, {}});
    const QList<RecordLine> lines = materialLines(told.shop(), told.shop().catalogue(), c, nullptr);
    QVERIFY(valueOf(lines, QStringLiteral("To unload, support")).startsWith(QStringLiteral("S-40")));
    QCOMPARE(valueOf(lines, QStringLiteral("Stays, support")), QStringLiteral("(no line Stays, support)"));
    QVERIFY(valueOf(headOf(nullptr, told.shop().catalogue(), c, nullptr), QStringLiteral("Support material")).endsWith(QStringLiteral("to none")));
}

void RecordTest::anIdleSupportThatStaysIsNotTakenOut() {
    const Told told;
    const Changeover c = withoutSupport(told);
    const QString said = valueOf(headOf(nullptr, told.shop().catalogue(), c, nullptr), QStringLiteral("Support material"));
    QVERIFY2(!said.contains(QStringLiteral("to none")) && said.contains(QStringLiteral("acr-clear")), qPrintable(said));
}

void RecordTest::aMinuteIsAMinuteWhenTheClockWasSet() {
    for (const int jump : {-60, 90}) {
        Told told;
        told.begin();
        told.confirm(0);
        told.tell(act::StepStarted{1, told.step(1).step.id});
        told.wait(2);
        told.setClock(jump);
        told.confirm(1); // three minutes later
        told.confirm(2); // nobody said when it began: when the one before it ended
        told.setClock(jump);
        told.confirm(3);
        told.tell(act::SessionStopped{1, QStringLiteral("enough")});
        const Record r = told.record();
        for (const auto& [step, minutes] : {std::pair(0, 3), std::pair(1, 5), std::pair(2, 3), std::pair(3, 3)})
            QCOMPARE(r.steps[step].actual, QString::number(minutes));
        const QString said = valueOf(r.head, QStringLiteral("Minutes"));
        QVERIFY2(said.endsWith(QStringLiteral("actual 14 min")), qPrintable(said));
    }
}

void RecordTest::onlyReadingsAreCalibrationResults() {
    Bare bare;
    bare.planned.step.id = QStringLiteral("align");
    bare.planned.step.effect = Effect::Align;
    bare.planned.step.confirm.answers = {{QStringLiteral("X offset entered at the printer?"), true}};
    bare.progress.confirmed.answers = {act::AnswerDone{true}};
    bare.progress.confirmed.readings = {{QStringLiteral("X offset"), 50, QStringLiteral("mm"), QStringLiteral("g-1"), {}}};
    SessionState session;
    session.changeover.steps = {bare.planned};
    session.steps.insert(bare.planned.step.id, bare.progress);
    const QList<RecordLine> lines = calibrationLines(bare.catalogue, session);
    QCOMPARE(lines.size(), 1);
    QCOMPARE(lines.first().label, QStringLiteral("X offset"));
}

void RecordTest::whoeverStandsOnItIsNamed() {
    Told told;
    told.begin();
    told.tell(act::TemperatureRead{1, Sensor::Chamber, Temperature::fromCelsius(71.5), QStringLiteral("ct-1")}, QStringLiteral("TO"));
    told.confirm(0);
    told.tell(act::TakenBack{1, told.step(0).step.id, QStringLiteral("wrong row ticked")}, QStringLiteral("RS"));
    const Record r = told.record();
    QVERIFY(r.readings.first().contains(QStringLiteral("TO")));
    QVERIFY(r.people.contains(QStringLiteral("Tove Orrin (TO)")));
    QVERIFY(r.steps.first().takenBack.first().contains(QStringLiteral("RS")));
    QVERIFY(r.people.contains(QStringLiteral("Rurik Saal (RS)")));
}

INTERLUDE_TEST(RecordTest)
#include "record_test.moc"
