#include "model/planning/problem/shop_changes.h"

#include "model/planning/problem/foresee.h"
#include "model/planning/problem/imagined_stock.h"
#include "model/planning/problem/printer_text.h"

#include <cmath>

namespace interlude::planning {

namespace {

std::uint64_t keyOf(int kind, int state, int setup, std::array<bool, 2> worn) {
    return (((static_cast<std::uint64_t>(kind) << 24 | static_cast<std::uint64_t>(state)) << 24 |
             static_cast<std::uint64_t>(setup))
            << 2) |
           (worn[0] ? 1U : 0U) | (worn[1] ? 2U : 0U);
}

QHash<QString, int> numbered(const QStringList& ids) {
    QHash<QString, int> out;
    for (const QString& id : ids)
        if (!out.contains(id)) out.insert(id, static_cast<int>(out.size()));
    return out;
}

Kind kindOf(SegmentKind k) {
    switch (k) {
    case SegmentKind::Preparation: return Kind::Preparation;
    case SegmentKind::HandsOn: return Kind::HandsOn;
    case SegmentKind::Waiting: return Kind::Waiting;
    case SegmentKind::PartRemoval: return Kind::PartRemoval;
    }
    return Kind::Waiting;
}

Change impossible(const QString& reason) {
    Change c;
    c.reason = reason.toStdString();
    return c;
}

void sum(Change& c) {
    for (const Work& w : c.work) {
        c.minutes += w.minutes;
        c.handsOn += w.people * w.minutes;
    }
}

} // namespace

QHash<QString, int> nozzleTypeNumbers(const Catalogue& catalogue) {
    QStringList ids;
    for (const NozzleType& t : catalogue.nozzleTypes) ids.append(t.id);
    return numbered(ids);
}

QHash<QString, int> meltFamilyNumbers(const Catalogue& catalogue) {
    QStringList ids;
    for (const Material& m : catalogue.materials) ids.append(m.meltFamily);
    return numbered(ids);
}

QHash<QString, int> toolNumbers(const Catalogue& catalogue) {
    QStringList ids;
    for (const Tool& t : catalogue.fleet.tools) ids.append(t.id);
    return numbered(ids);
}

ShopChanges::ShopChanges(std::shared_ptr<const ChangesGround> ground)
    : m_ground(std::move(ground)), m_toolNumbers(toolNumbers(*m_ground->catalogue)),
      m_typeNumbers(nozzleTypeNumbers(*m_ground->catalogue)), m_familyNumbers(meltFamilyNumbers(*m_ground->catalogue)) {}

std::unique_ptr<Changes> ShopChanges::clone() const {
    auto copy = std::make_unique<ShopChanges>(m_ground);
    copy->m_states = m_states;
    copy->m_numbers = m_numbers;
    // What has been judged already, so that a worker begins to search at once.
    copy->m_changes = m_changes;
    copy->m_removals = m_removals;
    return copy;
}

int ShopChanges::stateOf(const PrinterNow& printer) {
    const QByteArray text = printerText(printer);
    if (const auto found = m_numbers.constFind(text); found != m_numbers.cend()) return *found;
    const int number = static_cast<int>(m_states.size());
    m_states.push_back(printer);
    m_numbers.insert(text, number);
    return number;
}

const Change& ShopChanges::from(int printer, int state, int job, int variant, std::array<bool, 2> worn) {
    const int setup = m_ground->setupOf[static_cast<std::size_t>(job)][static_cast<std::size_t>(variant)];
    return toSetup(m_ground->kindOf[static_cast<std::size_t>(printer)], state, setup, worn);
}

const Change& ShopChanges::toSetup(int kind, int state, int setup, std::array<bool, 2> worn) {
    const std::uint64_t key = keyOf(kind, state, setup, worn);
    if (const auto found = m_changes.find(key); found != m_changes.end()) return found->second;
    Change made = judge(kind, state, m_ground->setups.at(setup), worn);
    return m_changes.emplace(key, std::move(made)).first->second;
}

TransitionRequest ShopChanges::request(int kind, int state, const Setup& setup, std::array<bool, 2> worn) const {
    TransitionRequest r;
    r.now = printerIn(state);
    r.now.id = m_ground->printerOf[static_cast<std::size_t>(kind)];
    r.wanted = setup;
    r.job = QStringLiteral("part");
    // A worn nozzle gives way to the second one of its kind.
    const auto other = [&](Role role, const NozzleTypeId& type, const MaterialId& material) {
        const Material* m = m_ground->catalogue->material(material);
        if (!m || type.isEmpty()) return NozzleSerial();
        const NozzleSerial first = imaginedNozzle(type, m->meltFamily);
        return at(r.now, role).nozzle == first ? imaginedNozzle(type, m->meltFamily, true) : first;
    };
    if (worn[PartPosition]) r.choosePartNozzle = other(Role::Part, setup.partNozzle, setup.part);
    if (worn[SupportPosition]) r.chooseSupportNozzle = other(Role::Support, setup.supportNozzle, setup.support);
    return r;
}

Work ShopChanges::workOf(const Segment& s, const Changeover& changeover) const {
    Work w;
    w.kind = kindOf(s.kind);
    w.people = s.people;
    w.minutes = (s.end - s.start).count();
    w.mounts = s.mounts;
    for (const QString& tool : s.tools)
        if (const auto number = m_toolNumbers.constFind(tool); number != m_toolNumbers.cend()) w.tools.push_back(*number);
    std::sort(w.tools.begin(), w.tools.end());
    for (const QString& id : s.steps) {
        w.steps.push_back(id.toStdString());
        const PlannedStep* step = changeover.step(id);
        if (!step) continue;
        w.removes[PartPosition] |= step->step.effect == Effect::RemoveNozzlePart;
        w.removes[SupportPosition] |= step->step.effect == Effect::RemoveNozzleSupport;
        w.mounts |= step->step.effect == Effect::MountNozzlePart || step->step.effect == Effect::MountNozzleSupport;
    }
    return w;
}

std::vector<Work> ShopChanges::worksOf(const QList<Segment>& segments, const Changeover& changeover) const {
    std::vector<Work> out;
    for (const Segment& s : segments) out.push_back(workOf(s, changeover));
    return out;
}

Cents ShopChanges::materialOf(const Transition& t) const {
    const Catalogue& c = *m_ground->catalogue;
    Cents sum = t.cleanOut ? c.fleet.cleanOutConsumables.cents() : 0;
    for (const PurgePlan& p : t.purges) {
        const Material* m = c.material(p.to);
        if (!p.needed || !m) continue;
        const double kg = p.volume.cm3() * m->densityGPerCm3 / 1000.0;
        sum += std::llround(kg * static_cast<double>(m->pricePerKg.cents()));
    }
    return sum;
}

NozzleNeed ShopChanges::needOf(const Transition& t, Role role) const {
    NozzleNeed need;
    const MaterialId material = role == Role::Part ? t.request.wanted.part : t.request.wanted.support;
    const Material* m = m_ground->catalogue->material(material);
    for (const NozzleChange& n : t.nozzles) {
        if (n.role != role || !m) continue;
        const auto nozzle = m_ground->stock.nozzles.constFind(n.in);
        if (nozzle == m_ground->stock.nozzles.cend()) continue;
        need.exchange = n.exchange;
        need.type = m_typeNumbers.value(nozzle->type, -1);
        need.family = m_familyNumbers.value(m->meltFamily, -1);
    }
    return need;
}

Change ShopChanges::byTable(int kind, int state, const Setup& setup) {
    const QString fromLabel = printerIn(state).label;
    const auto& table = m_ground->measured[static_cast<std::size_t>(kind)];
    const PrinterId& id = m_ground->printerOf[static_cast<std::size_t>(kind)];
    Change c;
    if (fromLabel != setup.label) {
        const auto found = table.constFind({fromLabel, setup.label});
        if (found == table.cend())
            return impossible(QStringLiteral("%1 cannot go from %2 to %3: its table of measured changeovers has no such pair")
                                  .arg(id, fromLabel.isEmpty() ? QStringLiteral("an unknown setup") : fromLabel, setup.label));
        const bool unattended = m_ground->catalogue->printer(id)->unattended;
        const Minute total = found->total.count();
        const Minute hands = unattended ? 0 : std::min<Minute>(found->handsOn.count(), total);
        const auto add = [&](Kind k, int people, Minute minutes) {
            Work w;
            w.kind = k;
            w.people = people;
            w.minutes = minutes;
            if (minutes > 0) c.work.push_back(std::move(w));
        };
        add(Kind::HandsOn, 1, hands);
        add(Kind::Waiting, 0, total - hands);
        c.facts.push_back(QStringLiteral("measured from %1 to %2").arg(fromLabel, setup.label).toStdString());
    }
    c.possible = true;
    sum(c);
    PrinterNow next = printerIn(state);
    next.label = setup.label;
    next.activity = Activity::PartLying;
    next.job = QStringLiteral("part");
    next.lastPrintEnd = m_ground->now;
    c.next = stateOf(next);
    return c;
}

Change ShopChanges::judge(int kind, int state, const Setup& setup, std::array<bool, 2> worn) {
    const Catalogue& catalogue = *m_ground->catalogue;
    const Printer* printer = catalogue.printer(m_ground->printerOf[static_cast<std::size_t>(kind)]);
    if (!setup.label.isEmpty() && printer && printer->hasMeasured) return byTable(kind, state, setup);
    const Transition t = judgeTransition(catalogue, m_ground->stock, request(kind, state, setup, worn), m_ground->now);
    const Outcome<Changeover> made = planChangeover(catalogue, m_ground->stock, t, m_ground->now);
    if (!made) return impossible(made.error().reason);
    Change c;
    c.possible = true;
    for (const Segment& s : made->segments) {
        if (s.kind == SegmentKind::PartRemoval) continue;
        Work w = workOf(s, *made);
        if (s.kind == SegmentKind::Preparation) c.preparation = std::move(w);
        else c.work.push_back(std::move(w));
    }
    sum(c);
    c.cleanOut = t.cleanOut;
    c.material = materialOf(t);
    c.nozzle = {needOf(t, Role::Part), needOf(t, Role::Support)};
    for (const PurgePlan& p : t.purges)
        if (p.needed) c.purge[p.role == Role::Part ? PartPosition : SupportPosition] += p.volume.mm3();
    for (const QString& f : t.facts) c.facts.push_back(f.toStdString());
    for (const Finding& f : t.verdicts)
        if (f.severity >= Severity::Advice && !f.rule.startsWith(QStringLiteral("spool-")) &&
            !f.rule.startsWith(QStringLiteral("nozzle-")))
            c.reasons.push_back(f.reason.toStdString());
    PrinterNow next = imagined(catalogue, m_ground->stock, foreseePrinted(catalogue, m_ground->stock, t.request.now, *made));
    next.lastPrintEnd = m_ground->now;
    c.next = stateOf(next);
    return c;
}

const std::vector<Work>& ShopChanges::removal(int printer, int state) {
    const int kind = m_ground->kindOf[static_cast<std::size_t>(printer)];
    const std::uint64_t key = keyOf(kind, state, 0, {});
    if (const auto found = m_removals.find(key); found != m_removals.end()) return found->second;
    std::vector<Work> works;
    const PrinterNow& now = printerIn(state);
    const Catalogue& catalogue = *m_ground->catalogue;
    const PrinterId& id = m_ground->printerOf[static_cast<std::size_t>(kind)];
    const Printer* p = catalogue.printer(id);
    const PrinterType* type = catalogue.typeOf(id);
    if (now.activity == Activity::PartLying && p && type) {
        // Asked of a changeover to what is dressed already: taking the part out does not depend on what comes next.
        Setup same;
        same.part = now.part.loaded;
        same.support = now.lastSupport.isEmpty() ? MaterialId() : now.support.loaded;
        same.partNozzle = now.part.nozzle.section(QLatin1Char('/'), 0, 0);
        same.supportNozzle = now.support.nozzle.section(QLatin1Char('/'), 0, 0);
        same.chamber = now.chamberSet;
        const Transition t = judgeTransition(catalogue, m_ground->stock, request(kind, state, same, {}), m_ground->now);
        const Outcome<Changeover> made = planChangeover(catalogue, m_ground->stock, t, m_ground->now);
        if (made) {
            for (const Segment& s : made->segments)
                if (s.kind == SegmentKind::PartRemoval) works.push_back(workOf(s, *made));
        } else if (type->partRemoval > Minutes(0)) {
            Work w;
            w.kind = Kind::PartRemoval;
            w.people = p->unattended ? 0 : 1;
            w.minutes = type->partRemoval.count();
            works.push_back(w);
        }
    }
    return m_removals.emplace(key, std::move(works)).first->second;
}

} // namespace interlude::planning
