#include "tests/shop/fixture.h"

#include "model/ledger/canonical_json.h"

namespace interlude::tests {

namespace {

Material material(const char* id, Role role, const char* family, int chamber, int nozzle, int low, int high, int soft,
                  double density) {
    Material m;
    m.id = m.name = text(id);
    m.polymer = m.id.toUpper();
    m.role = role;
    m.chamberFamily = m.meltFamily = text(family);
    if (role == Role::Part)
        m.chamber = celsius(chamber);
    m.nozzle = celsius(nozzle);
    m.meltMin = celsius(low);
    m.meltMax = celsius(high);
    m.softening = celsius(soft);
    m.densityGPerCm3 = density;
    m.orifices = {Length::fromMicrometres(400)};
    if (role == Role::Part)
        m.supports = {text("acr")};
    else
        m.leaves = Leaves::Soluble;
    return m;
}

NozzleType nozzleType(const char* id, bool unit) {
    NozzleType t;
    t.id = t.name = text(id);
    t.orifice = Length::fromMicrometres(400);
    t.hardened = true;
    t.roles = {Role::Part, Role::Support};
    t.ratedLife = cm3(9000);
    t.ratedLifeAbrasive = cm3(2500);
    t.max = celsius(450);
    t.meltZone = Volume::fromMm3(400);
    t.prime = Volume::fromMm3(1500);
    t.unitWithMeltZone = unit;
    return t;
}

Nozzle nozzle(const char* serial, const char* family, RunVolume run, const char* type = "h04") {
    Nozzle n;
    n.serial = text(serial);
    n.type = text(type);
    n.meltFamily = text(family);
    n.run = run;
    n.place = text("rack");
    return n;
}

Spool spool(const char* id, const char* material, std::optional<Mass> left, std::optional<Mass> tare) {
    Spool s;
    s.id = text(id);
    s.material = text(material);
    s.lot = QStringLiteral("L-") + s.id;
    s.left = left;
    s.leftSe = grams(5);
    s.tare = tare;
    s.place = text("cabinet");
    return s;
}

StepTemplate step(const char* id, Effect effect, QStringList after, int minutes = 4) {
    StepTemplate s;
    s.id = s.title = text(id);
    s.group = text("Work");
    s.effect = effect;
    s.after = std::move(after);
    s.minutes = Minutes(minutes);
    return s;
}

QList<StepTemplate> steps() {
    QList<StepTemplate> out;
    StepTemplate fetch = step("fetch", Effect::None, {});
    fetch.external = true;
    StepTemplate cool = step("cool", Effect::None, {text("part-out")}, 30);
    cool.people = 0;
    StepTemplate open = step("open", Effect::None, {text("cool")});
    open.onlyBelow = celsius(60);
    open.confirm.answers = {{text("Is the door open?"), true}};
    StepTemplate mount = step("mount", Effect::MountNozzlePart, {text("remove")});
    mount.confirm.scans = {{ScanTarget::NozzleInPart}};
    StepTemplate load = step("load", Effect::LoadPart, {text("mount"), text("clean-out")});
    load.confirm.scans = {{ScanTarget::SpoolInPart}};
    StepTemplate heat = step("heat", Effect::None, {text("cover"), text("load")}, 25);
    heat.people = 0;
    StepTemplate purge = step("purge", Effect::PurgePart, {text("heat")});
    purge.duration = DurationKind::Purge;
    purge.subject = Subject::Part;
    StepTemplate align = step("align", Effect::Align, {text("purge")});
    align.confirm.readings = {{text("X offset"), text("mm"), -0.1, 0.1, text("ct-1"), 2}};
    StepTemplate look = step("look", Effect::None, {text("align")});
    look.mandatory = false;
    out << fetch << step("part-out", Effect::RemovePart, {}) << cool << open
        << step("unload", Effect::UnloadPart, {text("open")})
        << step("unload-support", Effect::UnloadSupport, {text("open")})
        << step("remove", Effect::RemoveNozzlePart, {text("unload")}) << mount
        << step("clean-out", Effect::CleanOut, {text("unload")}) << step("cover", Effect::FitCover, {text("clean-out")})
        << load << step("load-support", Effect::LoadSupport, {text("load")}) << heat << purge
        << step("purge-support", Effect::PurgeSupport, {text("load-support"), text("heat")}) << align << look
        << step("start", Effect::StartPrint, {text("look"), text("purge-support")});
    return out;
}

Job job(const char* id, const char* part, int minutes, int partCm3, int supportCm3) {
    Job j;
    j.id = text(id);
    j.title = QStringLiteral("part of ") + j.id;
    Variant v;
    v.name = text("fine");
    v.setup.part = text(part);
    v.setup.support = text("acr");
    v.setup.partNozzle = v.setup.supportNozzle = text("h04");
    v.print = Minutes(minutes);
    v.partVolume = cm3(partCm3);
    v.supportVolume = cm3(supportCm3);
    j.variants = {v};
    return j;
}

void addFleet(Fleet& f) {
    f.id = f.name = text("tiny");
    f.people = {{text("ML"), text("Mara Lind"), {}}, {text("JK"), text("Jon Kell"), {}}};
    f.places = {{text("rack"), text("Rack"), false}, {text("cabinet"), text("Cabinet"), true}};
    f.instruments = {{text("ct-1"), text("Gauge 1"), text("rack"), {}, {}}};
    PrinterType type;
    type.id = text("mid");
    type.chamberMax = celsius(145);
    type.nozzleMax = celsius(345);
    type.platformCover = text("sheet");
    f.printerTypes = {type};
    Printer one, two;
    one.id = one.name = text("bay-1");
    two.id = two.name = text("bay-2");
    one.type = two.type = type.id;
    f.printers = {one, two};
}

} // namespace

Instant at(int minutes) {
    return instantFromMs(1772431200000) + Minutes(minutes);
}
Temperature celsius(int c) {
    return Temperature::fromMilliCelsius(c * 1000LL);
}
Volume cm3(int v) {
    return Volume::fromMm3(v * 1000LL);
}
QStringList warnings(const Findings& all) {
    QStringList out;
    for (const Finding& f : all)
        if (f.severity == Severity::Warning) out.append(f.rule);
    return out;
}

Mass grams(int g) {
    return Mass::fromMilligrams(g * 1000LL);
}

std::shared_ptr<Catalogue> tinyCatalogue() {
    auto c = std::make_shared<Catalogue>();
    addFleet(c->fleet);
    c->materials = {material("abs", Role::Part, "styrenics", 90, 265, 230, 290, 105, 1.0),
                    material("pc", Role::Part, "polycarbonates", 125, 300, 270, 340, 150, 1.2),
                    material("pc-cf", Role::Part, "polycarbonates", 125, 300, 270, 340, 150, 1.25),
                    material("acr", Role::Support, "acrylics", 0, 250, 220, 300, 120, 1.1)};
    c->materials[2].abrasive = true;
    c->materials[1].drying = celsius(110);
    c->materials[1].dryingTime = Minutes(180);
    c->materials[1].exposureLimit = Minutes(480);
    c->nozzleTypes = {nozzleType("h04", false), nozzleType("u04", true)};
    c->procedures.version = text("1");
    c->procedures.steps = steps();
    c->openings.spools = {spool("A-1", "abs", grams(800), grams(200)), spool("C-1", "acr", grams(500), grams(180)),
                          spool("P-1", "pc", grams(900), grams(250)), spool("P-2", "pc", std::nullopt, std::nullopt)};
    c->openings.nozzles = {nozzle("N-1", "styrenics", {true, cm3(100), Volume()}), nozzle("N-2", "", {}),
                           nozzle("N-3", "polycarbonates", {false, {}, {}}),
                           nozzle("S-1", "acrylics", {true, cm3(50), Volume()}), nozzle("N-9", "", {}, "u04")};
    c->openings.jobs = {job("J1", "abs", 120, 100, 20), job("J2", "pc", 300, 200, 30)};
    OpeningSetup s;
    s.printer = text("bay-1");
    s.part = text("abs");
    s.support = text("acr");
    s.partNozzle = text("N-1");
    s.supportNozzle = text("S-1");
    s.partSpool = text("A-1");
    s.supportSpool = text("C-1");
    s.platformCover = text("used");
    s.residue = {{text("abs"), celsius(90), celsius(265)}};
    s.lastPrint = at(-60);
    c->openings.setups = {s};
    c->hash = text("tiny-1");
    c->files = {{text("fleet.yaml"), text("id: tiny")}};
    return c;
}

World::World() : World(tinyCatalogue()) {
}

World::World(CataloguePtr catalogue)
    : m_catalogue(std::move(catalogue)), m_store(makeMemoryStore(m_catalogue->fleet.id)), m_shop(m_catalogue) {
    force(act::CatalogueRead{m_catalogue->hash, m_catalogue->files}, 0, {});
    for (const Spool& s : m_catalogue->openings.spools)
        tell(act::SpoolOpening{s}, 0, {});
    for (const Nozzle& n : m_catalogue->openings.nozzles)
        tell(act::NozzleOpening{n}, 0, {});
    for (const Job& j : m_catalogue->openings.jobs)
        tell(act::JobOpening{j}, 0, {});
    for (const OpeningSetup& s : m_catalogue->openings.setups)
        tell(act::SetupOpening{s}, 0, {});
}

Findings World::against(const Happening& h, int minute, const QString& who, std::optional<int> happened) const {
    return objections(m_shop, h, who, at(minute), at(happened.value_or(minute)));
}

QString World::refusedBy(const Happening& h, int minute, const QString& who, std::optional<int> happened) const {
    const Findings refusals = refusalsIn(against(h, minute, who, happened));
    return refusals.isEmpty() ? QString() : refusals.first().rule;
}

Event World::tell(const Happening& h, int minute, const QString& who) {
    for (const Finding& f : refusalsIn(against(h, minute, who)))
        qFatal("%s at %d: [%s] %s", qUtf8Printable(kindOf(h)), minute, qUtf8Printable(f.rule),
               qUtf8Printable(sentence(f)));
    return force(h, minute, who);
}

Event World::force(const Happening& h, int minute, const QString& who) {
    Event e;
    e.recordedAt = e.happenedAt = at(minute);
    e.station = text("bench");
    e.who = who;
    e.kind = kindOf(h);
    e.payload = toPayload(h);
    const Outcome<Event> stored = m_store->append(e);
    if (!stored)
        qFatal("append: %s", qUtf8Printable(sentence(stored.error())));
    const auto folded = m_shop.apply(*stored);
    if (!folded)
        qFatal("fold: %s", qUtf8Printable(sentence(folded.error())));
    return *stored;
}

Shop World::replayed() const {
    Shop again(m_catalogue);
    (void)m_store->read(0, [&](const Event& e) {
        const auto folded = again.apply(e);
        if (!folded)
            qFatal("replay: %s", qUtf8Printable(sentence(folded.error())));
        return true;
    });
    return again;
}

QByteArray World::digestOf(const Shop& shop) {
    const auto canonical = canonicalJson(QJsonValue(stateJson(shop)));
    if (!canonical)
        qFatal("state: %s", qUtf8Printable(sentence(canonical.error())));
    return *canonical;
}

Changeover World::toJ2(int minute) const {
    const Job j = job("J2");
    const Transition t = judgeTransition(m_shop.catalogue(), m_shop.stock(),
                                         requestFor(printer("bay-1"), j, j.variants.first()), at(minute));
    const Outcome<Changeover> c = planChangeover(m_shop.catalogue(), m_shop.stock(), t, at(minute));
    if (!c)
        qFatal("changeover: %s", qUtf8Printable(sentence(c.error())));
    return *c;
}

act::SessionStarted World::startJ2(int minute) const {
    return {m_shop.nextSession(), text("bay-1"), toJ2(minute), {}, false};
}

act::StepConfirmed World::confirmation(const StepId& id, int minute, qint64 number) const {
    act::StepConfirmed x;
    x.session = number;
    x.step = id;
    const PlannedStep* s = session(number).changeover.step(id);
    if (!s)
        qFatal("no step %s", qUtf8Printable(id));
    for (const QString& expected : s->expectedScans)
        x.scans.append({expected, false});
    for (const AnswerWanted& a : s->step.confirm.answers)
        x.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
    for (const ReadingWanted& r : s->step.confirm.readings)
        for (int i = 0; i < r.times; ++i)
            x.readings.append({r.name, 50, r.unit, r.instrument, at(minute)});
    if (s->step.onlyBelow) {
        x.measured = celsius(45);
        x.measuredAt = at(minute);
    }
    const bool mounts = s->step.effect == Effect::MountNozzlePart || s->step.effect == Effect::MountNozzleSupport;
    if (mounts && !m_shop.stock().nozzles.value(s->expectedScans.value(0)).run.known)
        x.useSoFar = RunVolume{false, {}, {}};
    return x;
}

void World::confirm(const StepId& id, int minute, qint64 number) {
    tell(confirmation(id, minute, number), minute);
}

int World::confirmUntil(const StepId& before, int minute, qint64 number) {
    const Changeover c = session(number).changeover;
    for (const PlannedStep& s : c.steps) {
        if (s.step.id == before)
            break;
        if (!session(number).settled(s.step.id))
            confirm(s.step.id, minute++, number);
    }
    return minute;
}

QList<Happening> everyKind() {
    Spool s = spool("S-77", "pc", grams(700), grams(210));
    s.received = at(-9000);
    s.opened = at(-800);
    s.expires = at(900000);
    s.dried = at(-700);
    s.exposedFrom = at(-600);
    s.exposedBefore = Minutes(12);
    Nozzle n = nozzle("N-77", "polycarbonates", {true, cm3(11), cm3(7)});
    n.toBeCleaned = true;
    n.measurements = {{at(-100), Length::fromMicrometres(412), text("ct-1"), text("ML")}};
    OpeningSetup setup = tinyCatalogue()->openings.setups.first();
    setup.label = text("A");
    Job j = job("J9", "pc", 90, 10, 3);
    j.partNumber = text("PN-1");
    j.revision = text("B");
    j.order = text("O-1");
    j.buildFile = text("a.build");
    j.buildSha256 = QString(64, QLatin1Char('a'));
    j.quantity = 12;
    j.release = at(10);
    j.due = at(5000);
    j.lateCostPerHour = Money::fromCents(1250);
    j.sameLot = true;
    j.printers = {text("bay-1")};
    j.envelope = Envelope{Length::fromMicrometres(1000), Length::fromMicrometres(2000), Length::fromMicrometres(3000)};
    j.variants[0].printOn = {{text("bay-1"), Minutes(95)}};
    j.variants[0].setup.chamber = celsius(120);
    const Plan plan{text("cost"),
                    {{text("bay-1"), {{text("J1"), text("fine"), true, at(5), at(30), at(150)}}}},
                    {{text("J1"), text("abs"), grams(80)}}};
    const World w;
    const act::Override o{text("nozzle-life"), text("the last nozzle here"), text("JK")};
    act::StepConfirmed confirmed{1,
                                 text("mount"),
                                 {{text("N-2"), true}},
                                 {{true}},
                                 {{text("X offset"), -50, text("mm"), text("ct-1"), at(3)}},
                                 celsius(44),
                                 at(3),
                                 RunVolume{false, {}, {}},
                                 {o},
                                 text("a note"),
                                 true};
    return {act::CatalogueRead{text("abc"), {{text("fleet.yaml"), text("id: tiny\n")}}},
            act::ExampleStarted{Milliseconds(-86400000)},
            act::SpoolOpening{s},
            act::NozzleOpening{n},
            act::SetupOpening{setup},
            act::JobOpening{j},
            act::PrintOpening{{text("bay-1"), text("J1"), text("fine"), at(-30), Minutes(120)}},
            act::Imported{text("delivery.csv"), {s}, {n}, {j}},
            act::SpoolReceived{s},
            act::SpoolWeighed{text("A-1"), grams(900), grams(200), grams(2)},
            act::SpoolDried{text("P-1"), celsius(110), at(-300), at(-60)},
            act::SpoolMoved{text("P-1"), text("rack"), true},
            act::SpoolLoaded{text("P-1"), text("bay-2"), Role::Support},
            act::SpoolUnloaded{text("A-1"), text("cabinet")},
            act::SpoolRetired{text("P-2"), text("broken")},
            act::NozzleReceived{n},
            act::NozzleUseStated{text("N-3"), {true, cm3(5), cm3(1)}},
            act::NozzleMeasured{text("N-3"), Length::fromMicrometres(405), text("ct-1")},
            act::NozzleRetired{text("N-3"), text("worn")},
            act::PrinterDeclared{text("bay-1"), setup, text("found so")},
            act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)},
            act::PrintEnded{text("bay-1"), PrintOutcome::Failed, false, cm3(40), cm3(4), text("came off")},
            act::PartRemoved{text("bay-1")},
            act::DowntimeBegun{text("bay-2"), text("belt"), at(600)},
            act::DowntimeEnded{text("bay-2")},
            act::JobAdded{j},
            act::JobChanged{j},
            act::JobWithdrawn{text("J1"), text("cancelled")},
            act::PlanPublished{plan},
            act::AbsenceEntered{{text("A1"), 1, at(60), at(120), text("course")}},
            act::AbsenceWithdrawn{text("A1")},
            act::DowntimePlanned{{text("D1"), text("bay-2"), at(60), at(120), text("belt")}},
            act::DowntimeWithdrawn{text("D1")},
            act::SessionStarted{1, text("bay-1"), w.toJ2(5), {o}, true},
            act::StepStarted{1, text("cool")},
            confirmed,
            act::StepSkipped{1, text("look"), o},
            act::TemperatureRead{1, Sensor::Head, celsius(88), text("ct-1")},
            act::SessionPaused{1, text("lunch"), true},
            act::SessionResumed{1, {{text("part"), text("N-1")}}},
            act::TakenBack{1, text("mount"), text("wrong one")},
            act::Corrected{1, 17, text("X offset"), text("50"), text("-50"), text("sign")},
            act::ProblemReported{1, text("mount"), text("thread binds"), true, {QString(64, QLatin1Char('c'))}},
            act::SessionStopped{1, text("end of shift")},
            act::SessionFinished{1, text("released"), text("all well")},
            act::RecordIssued{1, 2, QString(64, QLatin1Char('b'))},
            act::ProgramStarted{text("0.1.0")},
            act::ClockJumped{Milliseconds(-7200000), Milliseconds(90000)}};
}

} // namespace interlude::tests
