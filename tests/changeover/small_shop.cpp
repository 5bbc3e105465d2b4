#include "tests/changeover/small_shop.h"

#include <QTest>

namespace interlude::tests {

namespace {

template <class E> E fromWord(std::initializer_list<E> all, const QString& w) {
    for (E e : all)
        if (word(e) == w) return e;
    qFatal("no such word: %s", qPrintable(w));
}

void apply(StepTemplate& s, const QString& key, const QString& value) {
    const QStringList items = value.split(QLatin1Char(','));
    if (key == "after") s.after = items;
    if (key == "tools") s.tools = items;
    if (key == "wear") s.protection = items;
    if (key == "types") s.printerTypes = items;
    if (key == "settle") s.settle = Minutes(value.toInt());
    if (key == "effect") s.effect = *effectFromWord(value);
    if (key == "power") s.power = fromWord({Power::On, Power::Off, Power::Isolated}, value);
    if (key == "when") {
        s.when.all = value.contains(QLatin1Char('&'));
        s.when.terms = value.split(s.when.all ? QLatin1Char('&') : QLatin1Char('|'));
    }
    if (key == "heat") s.duration = DurationKind::Heat, s.subject = *subjectFromWord(value);
    if (key == "purge") s.duration = DurationKind::Purge, s.subject = *subjectFromWord(value);
    if (key == "cool") {
        s.duration = DurationKind::Cool;
        s.subject = *subjectFromWord(value.section(QLatin1Char(':'), 0, 0));
        if (value.contains(QLatin1Char(':'))) s.to = celsius(value.section(QLatin1Char(':'), 1).toDouble());
    }
    if (key == "use")
        for (const QString& item : items)
            s.consumables.insert(item.section(QLatin1Char(':'), 0, 0), item.section(QLatin1Char(':'), 1).toInt());
    if (key == "scan")
        for (const QString& item : items) s.confirm.scans.append({*scanTargetFromWord(item)});
    if (key == "read") {
        ReadingWanted r;
        r.name = value;
        r.unit = QStringLiteral("mm");
        r.min = -0.1;
        r.max = 0.125;
        r.instrument = value;
        s.confirm.readings.append(r);
    }
}

Material grade(const QString& id, Role role, const QString& family, double chamber, double nozzle, double meltMin,
               double meltMax, double softening) {
    Material m;
    m.id = id;
    m.polymer = id.toUpper();
    m.role = role;
    m.chamberFamily = m.meltFamily = family;
    if (role == Role::Part) m.chamber = celsius(chamber);
    m.nozzle = celsius(nozzle);
    m.meltMin = celsius(meltMin);
    m.meltMax = celsius(meltMax);
    m.softening = celsius(softening);
    return m;
}

NozzleType nozzleOfType(const QString& id, double orificeMm, Role role, bool hardened) {
    NozzleType t;
    t.id = id;
    t.orifice = Length::fromMm(orificeMm);
    t.roles = {role};
    t.hardened = hardened;
    t.ratedLife = cm3(1000);
    t.ratedLifeAbrasive = cm3(200);
    t.max = celsius(450);
    t.meltZone = Volume::fromMm3(400);
    t.prime = cm3(1);
    return t;
}

} // namespace

StepTemplate step(const QString& line) {
    StepTemplate s;
    const QStringList words = line.split(QLatin1Char(' '), Qt::SkipEmptyParts);
    s.id = s.title = words.first();
    for (const QString& w : words.mid(1)) {
        if (w == "wait") s.people = 0;
        else if (w == "ext") s.external = true;
        else if (w.contains(QLatin1Char('='))) apply(s, w.section(QLatin1Char('='), 0, 0), w.section(QLatin1Char('='), 1));
        else if (w.endsWith(QLatin1Char('m'))) s.minutes = Minutes(w.chopped(1).toInt());
        else if (w.endsWith(QLatin1Char('p'))) s.people = w.chopped(1).toInt();
        else qFatal("not a word of the step language: %s", qPrintable(w));
        // clean-out=mandatory and the like hold an `=` of their own: section(…, 1) keeps the rest of the word
    }
    return s;
}

SmallShop::SmallShop() {
    PrinterType mid;
    mid.id = QStringLiteral("mid");
    mid.chamberMax = celsius(150);
    mid.nozzleMax = celsius(400);
    mid.envelope = Envelope{Length::fromMm(400), Length::fromMm(350), Length::fromMm(300)};
    mid.start = Minutes(0);
    mid.purgeFlowMm3PerS = 10;
    Printer bay;
    bay.id = QStringLiteral("bay");
    bay.type = mid.id;
    catalogue.fleet.printerTypes = {mid};
    catalogue.fleet.printers = {bay};
    catalogue.procedures.version = QStringLiteral("1");
    catalogue.materials = {grade("abs", Role::Part, "styrenics", 90, 265, 230, 280, 105),
                           grade("asa", Role::Part, "styrenics", 90, 260, 240, 280, 100),
                           grade("pc", Role::Part, "polycarbonates", 125, 310, 270, 345, 150),
                           grade("pa-cf", Role::Part, "polyamides", 100, 270, 250, 300, 120),
                           grade("pei", Role::Part, "imides", 190, 375, 350, 400, 217),
                           grade("acr", Role::Support, "acrylics", 0, 250, 220, 280, 105),
                           grade("psb", Role::Support, "styrenics", 0, 250, 230, 280, 100)};
    material("pa-cf").abrasive = true;
    catalogue.nozzleTypes = {nozzleOfType("p04", 0.4, Role::Part, false), nozzleOfType("h06", 0.6, Role::Part, true),
                             nozzleOfType("s04", 0.4, Role::Support, false)};
    for (const auto& [serial, type, family, role] :
         {std::tuple("P1", "p04", "styrenics", Role::Part), std::tuple("S1", "s04", "acrylics", Role::Support)}) {
        Nozzle& n = nozzle(serial, type, 100, family);
        n.where = NozzleWhere::Mounted;
        n.place = bay.id;
        n.position = role;
    }
    for (const auto& [id, of, role] : {std::tuple("ABS1", "abs", Role::Part), std::tuple("ACR1", "acr", Role::Support)}) {
        Spool& s = spool(id, of, 500);
        s.where = SpoolWhere::Loaded;
        s.place = bay.id;
        s.position = role;
    }
    request.now.id = bay.id;
    request.now.part = {"P1", "ABS1", "abs", "abs"};
    request.now.support = {"S1", "ACR1", "acr", "acr"};
    request.now.lastPart = QStringLiteral("abs");
    request.now.lastSupport = QStringLiteral("acr");
    request.now.chamberSet = celsius(90);
    request.now.nozzleSet = celsius(265);
    want("pc", "p04");
}

Material& SmallShop::material(const QString& id) {
    for (Material& m : catalogue.materials)
        if (m.id == id) return m;
    qFatal("no material %s", qPrintable(id));
}

NozzleType& SmallShop::nozzleType(const QString& id) {
    for (NozzleType& t : catalogue.nozzleTypes)
        if (t.id == id) return t;
    qFatal("no nozzle type %s", qPrintable(id));
}

Nozzle& SmallShop::nozzle(const QString& serial, const QString& type, double runCm3, const QString& family) {
    Nozzle& n = stock.nozzles[serial];
    n.serial = serial;
    n.type = type;
    n.meltFamily = family;
    n.place = QStringLiteral("rack");
    n.run.known = runCm3 >= 0;
    n.run.plain = cm3(std::max(0.0, runCm3));
    n.order = static_cast<int>(stock.nozzles.size());
    return n;
}

Spool& SmallShop::spool(const QString& id, const QString& of, double left) {
    Spool& s = stock.spools[id];
    s.id = id;
    s.material = of;
    s.left = grams(left);
    s.place = QStringLiteral("cabinet");
    s.lot = QStringLiteral("L-") + id;
    s.order = static_cast<int>(stock.spools.size());
    return s;
}

void SmallShop::want(const QString& part, const QString& partNozzle, const QString& support,
                     const QString& supportNozzle) {
    request.wanted.part = part;
    request.wanted.partNozzle = partNozzle;
    request.wanted.support = support;
    request.wanted.supportNozzle = supportNozzle;
}

void SmallShop::residue(const QString& of, double chamberC, double nozzleC) {
    request.now.residue.append({of, celsius(chamberC), celsius(nozzleC)});
    request.now.wiper = request.now.residue;
}

void SmallShop::steps(const QStringList& lines) {
    catalogue.procedures.steps.clear();
    for (const QString& line : lines) catalogue.procedures.steps.append(step(line));
}

Changeover SmallShop::planned(const QStringList& lifted) const {
    const Outcome<Changeover> c = plan(lifted);
    if (c) return *c;
    QTest::qFail(qPrintable(QStringLiteral("no plan: ") + sentence(c.error())), __FILE__, __LINE__);
    return {};
}

const Finding* verdict(const Transition& t, const QString& rule) {
    for (const Finding& f : t.verdicts)
        if (f.rule == rule) return &f;
    return nullptr;
}

QStringList refused(const Transition& t) {
    QStringList rules;
    for (const Finding& f : refusalsIn(t.verdicts))
        if (!rules.contains(f.rule)) rules.append(f.rule);
    return rules;
}

QStringList inWords(const QList<Segment>& segments) {
    QStringList out;
    for (const Segment& s : segments)
        out.append(QStringLiteral("%1 %2-%3 x%4 [%5]%6")
                       .arg(word(s.kind))
                       .arg(s.start.count())
                       .arg(s.end.count())
                       .arg(s.people)
                       .arg(s.steps.join(QLatin1Char(' ')), s.mounts ? QStringLiteral(" mounts") : QString()));
    return out;
}

SmallShop shopWith(const QStringList& lines) {
    SmallShop shop;
    shop.nozzle("P2", "p04");
    shop.spool("PC1", "pc", 1000);
    shop.bay().support = {};
    shop.steps(lines);
    return shop;
}

} // namespace interlude::tests
