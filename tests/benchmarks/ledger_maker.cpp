#include "tests/benchmarks/ledger_maker.h"

#include "model/ledger/chain.h"
#include "model/ledger/sqlite_tables.h"

#include <QFile>

#include <cstdio>

namespace interlude::bench {

namespace {

constexpr qint64 aTransaction = 5000;

QString text(const char* s) { return QString::fromLatin1(s); }

act::StepConfirmed rightly(const Shop& shop, qint64 session, const PlannedStep& p, Instant now) {
    act::StepConfirmed x;
    x.session = session;
    x.step = p.step.id;
    for (const QString& expected : p.expectedScans)
        x.scans.append({expected.isEmpty() ? shop.catalogue().fleet.places.first().id : expected, false});
    for (const AnswerWanted& a : p.step.confirm.answers) x.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
    for (const ReadingWanted& r : p.step.confirm.readings)
        for (int i = 0; i < r.times; ++i) x.readings.append({r.name, 20, r.unit, r.instrument, now});
    if (p.step.onlyBelow) {
        x.measured = p.step.onlyBelow->plusKelvin(-1);
        x.measuredAt = now;
    }
    return x;
}

} // namespace

LedgerMaker::LedgerMaker(CataloguePtr catalogue)
    : m_catalogue(std::move(catalogue)), m_shop(m_catalogue), m_now(instantFromMs(1772433000000)) {}

LedgerMaker::~LedgerMaker() = default;

bool LedgerMaker::open(const QString& file) {
    for (const char* end : {"", "-wal", "-shm", ".lock", ".snapshot", ".aside"}) QFile::remove(file + text(end));
    m_connection = std::make_unique<sqlite::Connection>(file, false);
    QSqlDatabase& db = m_connection->database;
    if (!db.open() || !sqlite::createTables(db, m_catalogue->fleet.id, file)) return false;
    QSqlQuery(db).exec(text("PRAGMA synchronous = OFF"));
    m_insert = std::make_unique<QSqlQuery>(db);
    m_hash = genesisHash(m_catalogue->fleet.id);
    m_aside = Snapshot::open(file + text(".aside"), std::shared_ptr<EventStore>(makeMemoryStore(m_catalogue->fleet.id)), false);
    return m_aside && m_aside->beginAfresh(m_catalogue) && db.transaction() &&
           m_insert->prepare(text("INSERT INTO event (sequence, recorded_at, happened_at, station, who, kind, canonical, hash)"
                                  " VALUES (?, ?, ?, ?, ?, ?, ?, ?)"));
}

void LedgerMaker::say(const Happening& h, bool byPerson) {
    if (!m_wrong.isEmpty()) return;
    m_now += Seconds(30 + m_random.bounded(120));
    Event e;
    e.recordedAt = e.happenedAt = m_now;
    e.station = text("bench-pc");
    e.who = byPerson ? (m_random.bounded(2) ? text("ML") : text("JK")) : text("");
    e.kind = kindOf(h);
    e.payload = toPayload(h);
    const auto canonical = forge(e, m_sequence, m_hash);
    const auto folded = canonical ? m_shop.apply(e) : tl::unexpected<Finding>(canonical.error());
    if (!folded) {
        m_wrong = e.kind + text(": ") + sentence(folded.error());
        return;
    }
    m_imported.remember(e);
    m_sequence = e.sequence;
    m_hash = e.hash;
    const QVariant values[] = {e.sequence, toMs(e.recordedAt), toMs(e.happenedAt), e.station, e.who, e.kind, *canonical, e.hash};
    for (int i = 0; i < static_cast<int>(std::size(values)); ++i) m_insert->bindValue(i, values[i]);
    if (!m_insert->exec()) m_wrong = m_insert->lastError().text();
    if (m_sequence % aTransaction != 0) return;
    m_connection->database.commit();
    m_connection->database.transaction();
    (void)m_aside->putAway(m_shop, m_imported);
}

void LedgerMaker::beginning() {
    say(act::ExampleStarted{m_now - instantFromMs(QDateTime::currentMSecsSinceEpoch())}, false);
    say(act::ProgramStarted{text(INTERLUDE_VERSION)}, false);
    say(act::CatalogueRead{m_catalogue->hash, m_catalogue->files}, false);
    for (const Happening& opening : openingsOf(*m_catalogue)) say(opening, false);
    for (const PrinterNow& p : m_shop.printers())
        if (p.activity == Activity::Printing) say(act::PrintEnded{p.id, PrintOutcome::Good, true, {}, {}, {}});
}

/// Some job of the folder that this printer may print, under a number of its own.
Job LedgerMaker::wanted(const PrinterId& printer) {
    const QList<Job>& all = m_catalogue->openings.jobs;
    Job j;
    do j = all.at(static_cast<int>(m_random.bounded(static_cast<quint32>(all.size()))));
    while (!j.printers.isEmpty() && !j.printers.contains(printer));
    j.id = QString::number(100000 + ++m_jobs);
    j.order = text("O-") + QString::number(m_jobs / 3);
    return j;
}

void LedgerMaker::provide(const MaterialId& id, Volume volume) {
    const Material* m = m_shop.material(id);
    if (!m) return;
    const Mass need = massOf(volume, m->densityGPerCm3) + Mass::fromMilligrams(250'000);
    for (const Spool& s : m_shop.stock().spools)
        if (s.material == id && s.where == SpoolWhere::Shelf && s.left && *s.left > need) return;
    Spool s;
    s.id = text("R") + QString::number(++m_spools);
    s.material = id;
    s.lot = text("L") + QString::number(2000 + m_spools / 6);
    s.left = std::max(Mass::fromMilligrams(2'500'000), need);
    s.tare = Mass::fromMilligrams(250'000);
    s.place = m_catalogue->fleet.places.first().id;
    say(act::SpoolReceived{s});
    if (m->drying) say(act::SpoolDried{s.id, *m->drying, m_now - Minutes(300), m_now - Minutes(1)});
}

std::optional<Changeover> LedgerMaker::planned(const PrinterId& printer, const Job& job, const Variant& variant) {
    for (int attempt = 0; attempt < 3; ++attempt) {
        const Transition t = judgeTransition(m_shop.catalogue(), m_shop.stock(), requestFor(*m_shop.printer(printer), job, variant), m_now);
        if (const auto c = t.possible() ? planChangeover(m_shop.catalogue(), m_shop.stock(), t, m_now) : tl::unexpected<Finding>(Finding())) return *c;
        const auto aboutNozzles = [](const Finding& f) { return f.rule.contains(text("nozzle")); };
        const Findings refusals = refusalsIn(t.verdicts);
        if (refusals.isEmpty() || !std::all_of(refusals.begin(), refusals.end(), aboutNozzles)) return {};
        const NozzleTypeId type = attempt == 0 ? variant.setup.partNozzle : variant.setup.supportNozzle;
        if (attempt == 2 || type.isEmpty()) continue;
        Nozzle n;
        n.serial = text("R-") + QString::number(++m_nozzles);
        n.type = type;
        n.place = m_catalogue->fleet.places.first().id;
        say(act::NozzleReceived{n});
    }
    return {};
}

void LedgerMaker::steps(qint64 session, const Changeover& c) {
    for (const PlannedStep& p : c.steps) {
        if (!p.step.handsOn()) say(act::StepStarted{session, p.step.id});
        if (p.step.onlyBelow) say(act::TemperatureRead{session, p.step.measuredAt, p.step.onlyBelow->plusKelvin(20), {}});
        say(rightly(m_shop, session, p, m_now));
        if (m_random.bounded(300) == 0) say(act::ProblemReported{session, p.step.id, text("thread binds a little"), false, {}});
    }
    say(act::SessionFinished{session, text("released"), {}});
    say(act::RecordIssued{session, 1, QString(64, QLatin1Char('b'))});
}

/// What happens beside the changeovers of a day.
void LedgerMaker::around(const Job& job) {
    m_lately.append(job.id);
    if (m_lately.size() > 60) m_lately.removeFirst();
    if (m_jobs % 6 == 0) say(act::ProgramStarted{text(INTERLUDE_VERSION)}, false);
    if (m_jobs % 12 == 0) {
        Plan plan{text("cost"), {{m_catalogue->fleet.printers.first().id, {}}}, {}};
        for (const JobId& id : m_lately) plan.printers[0].jobs.append({id, job.variants.first().name, false, m_now, m_now, m_now + Minutes(200)});
        say(act::PlanPublished{plan});
    }
    if (m_jobs % 5 == 0) say(act::NozzleMeasured{m_shop.stock().nozzles.keys().at(static_cast<int>(m_random.bounded(static_cast<quint32>(m_shop.stock().nozzles.size())))), Length::fromMicrometres(405), {}});
}

/// Empty spools and worn nozzles on the shelf go.
void LedgerMaker::tidy() {
    for (const Spool& s : m_shop.stock().spools.values())
        if (s.where == SpoolWhere::Shelf && s.left && *s.left < Mass::fromMilligrams(200'000)) say(act::SpoolRetired{s.id, text("empty")});
    for (const Nozzle& n : m_shop.stock().nozzles.values()) {
        const NozzleType* type = m_shop.nozzleType(n.type);
        // No shop keeps thousands of nozzles: beyond what its printers need, also new ones go.
        const bool many = m_shop.stock().nozzles.size() > 60;
        if (n.where == NozzleWhere::Shelf && (many || (type && lifeUsed(n, *type).value_or(1) > 0.8))) say(act::NozzleRetired{n.serial, text("worn")});
    }
}

bool LedgerMaker::carryOut(const PrinterId& printer, const Job& job, const Variant& variant) {
    if (variant.setup.part.isEmpty()) return false;
    provide(variant.setup.part, variant.partVolume);
    provide(variant.setup.support, variant.supportVolume);
    const auto c = planned(printer, job, variant);
    if (!c) return false;
    say(act::JobAdded{job});
    const qint64 session = m_shop.nextSession();
    say(act::SessionStarted{session, printer, *c, {}, false});
    steps(session, *c);
    if (m_shop.printer(printer)->activity != Activity::Printing) say(act::PrintStarted{printer, job.id, variant.name, variant.print});
    say(act::PrintEnded{printer, PrintOutcome::Good, true, {}, {}, {}});
    around(job);
    return true;
}

void LedgerMaker::changeover(const PrinterId& printer) {
    for (int attempt = 0; attempt < 20; ++attempt) {
        const Job job = wanted(printer);
        for (const Variant& variant : job.variants)
            if (carryOut(printer, job, variant)) return tidy();
    }
}

bool LedgerMaker::make(const QString& file, qint64 events) {
    if (!open(file)) {
        std::fprintf(stderr, "%s cannot be made\n", qPrintable(file));
        return false;
    }
    beginning();
    for (qint64 before = -1; m_sequence < events && m_wrong.isEmpty() && before != m_sequence;) {
        before = m_sequence;
        for (const Printer& p : m_catalogue->fleet.printers) changeover(p.id);
    }
    if (m_wrong.isEmpty() && m_sequence < events) m_wrong = text("no changeover is possible any more");
    if (!m_wrong.isEmpty()) std::fprintf(stderr, "after %lld events: %s\n", static_cast<long long>(m_sequence), qPrintable(m_wrong));
    m_insert.reset();
    const bool kept = m_connection->database.commit();
    m_connection.reset();
    m_shop = Shop();
    m_imported = ImportedOpenings();
    m_aside.reset();
    for (const char* end : {".aside", ".aside-wal", ".aside-shm"}) QFile::remove(file + text(end));
    return kept && m_wrong.isEmpty();
}

} // namespace interlude::bench
