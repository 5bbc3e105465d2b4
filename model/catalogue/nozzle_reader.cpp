#include "model/catalogue/readers.h"

#include <cmath>

namespace interlude {

namespace {

NozzleType readType(Fields& f) {
    NozzleType t;
    f.defines(Kind::NozzleType, QStringLiteral("id"), t.id);
    t.name = t.id;
    f.text(QStringLiteral("name"), t.name);
    double mm = 0;
    if (f.number(QStringLiteral("orifice-mm"), mm, {0.05, 5, QStringLiteral("mm")}, Need::Required)) t.orifice = Length::fromMm(mm);
    f.text(QStringLiteral("alloy"), t.alloy, Need::Optional, 100);
    f.yesNo(QStringLiteral("hardened"), t.hardened);
    const QStringList roles{QStringLiteral("part"), QStringLiteral("support")};
    for (const YamlNode* n : f.list(QStringLiteral("roles"), Need::Required, Empty::Refused))
        if (const auto found = choiceOf(f.reading(), *n, QStringLiteral("roles"), roles)) {
            const Role role = *found == 0 ? Role::Part : Role::Support;
            if (!t.roles.contains(role)) t.roles.append(role);
        }
    f.cm3(QStringLiteral("rated-life-cm3"), t.ratedLife, range::someCm3());
    f.cm3(QStringLiteral("rated-life-abrasive-cm3"), t.ratedLifeAbrasive, range::someCm3());
    f.celsius(QStringLiteral("max-c"), t.max, Need::Required);
    f.yesNo(QStringLiteral("unit-with-melt-zone"), t.unitWithMeltZone);
    double mm3 = 0;
    if (f.number(QStringLiteral("melt-zone-mm3"), mm3, {0, 1e5, QStringLiteral("mm³"), true},
                 t.unitWithMeltZone ? Need::Optional : Need::Required))
        t.meltZone = Volume::fromMm3(std::llround(mm3));
    f.number(QStringLiteral("dead-space-factor"), t.deadSpaceFactor, {1, 10, {}});
    f.cm3(QStringLiteral("prime-cm3"), t.prime, {0, 1000, QStringLiteral("cm³")});
    f.money(QStringLiteral("price"), t.price);
    f.refersToAll(Kind::PrinterType, QStringLiteral("printer-types"), t.printerTypes, Empty::Refused);
    return t;
}

/// The use so far: a number or `no-history`; of a nozzle with a past it may not be left out, lest it count as zero.
void readRun(Fields& f, Nozzle& n, bool mustState) {
    const YamlNode* run = f.take(QStringLiteral("run-cm3"));
    if (run && run->kind == YamlNode::Kind::Scalar && run->text.trimmed() == QStringLiteral("no-history")) {
        n.run.known = false;
        if (f.has(QStringLiteral("run-abrasive-cm3")))
            f.complain(QStringLiteral("run-abrasive-cm3"), QStringLiteral("a nozzle without history has no abrasive volume"),
                       QStringLiteral("remove it, or give both volumes as numbers"));
        f.take(QStringLiteral("run-abrasive-cm3"));
        return;
    }
    if (run && run->kind == YamlNode::Kind::Scalar) {
        bool number = false;
        run->text.trimmed().toDouble(&number);
        if (!number) {
            f.complain(QStringLiteral("run-cm3"), QStringLiteral("`run-cm3` is `%1`").arg(run->text.left(40)),
                       QStringLiteral("give a number of cm³, or `no-history`"));
            f.take(QStringLiteral("run-abrasive-cm3"));
            return;
        }
    }
    f.cm3(QStringLiteral("run-cm3"), n.run.plain, range::cm3());
    f.cm3(QStringLiteral("run-abrasive-cm3"), n.run.abrasive, range::cm3());
    if (mustState && !f.has(QStringLiteral("run-cm3")) && f.isMap())
        f.reading().complain(f.node().where, QStringLiteral("the use so far of this used nozzle is missing"),
                             QStringLiteral("give `run-cm3` as a number (0 is allowed) or as `no-history`"));
}

enum class State { New, Used, ToBeCleaned, Retired };

Nozzle readNozzle(Fields& f) {
    Nozzle n;
    f.defines(Kind::Nozzle, QStringLiteral("serial"), n.serial);
    f.refersTo(Kind::NozzleType, QStringLiteral("type"), n.type, Need::Required);
    f.refersTo(Kind::Place, QStringLiteral("place"), n.place);
    std::optional<State> state;
    State given = State::New;
    if (f.choice<State>(QStringLiteral("state"), given,
                        {{QStringLiteral("new"), State::New}, {QStringLiteral("used"), State::Used},
                         {QStringLiteral("to-be-cleaned"), State::ToBeCleaned}, {QStringLiteral("retired"), State::Retired}}))
        state = given;
    if (f.text(QStringLiteral("melt-family"), n.meltFamily, Need::Optional, 60))
        f.reading().refer(Kind::MeltFamily, n.meltFamily, f.where(QStringLiteral("melt-family")));
    readRun(f, n, f.has(QStringLiteral("melt-family")) || state == State::Used || state == State::ToBeCleaned);
    const bool ran = !n.run.known || n.run.plain > Volume() || n.run.abrasive > Volume();
    const bool past = ran || !n.meltFamily.isEmpty();
    if (state == State::New && past)
        f.complain(QStringLiteral("state"), QStringLiteral("a new nozzle has neither run volume nor melt family"),
                   QStringLiteral("write `state: used`, or remove them"));
    if ((state == State::Used || (!state && ran)) && !f.has(QStringLiteral("melt-family")) && f.isMap())
        f.reading().complain(f.node().where, QStringLiteral("the melt family of this used nozzle is missing"),
                             QStringLiteral("once used, a nozzle serves one melt family; name it, or retire the nozzle"));
    n.toBeCleaned = state == State::ToBeCleaned;
    if (state == State::Retired) {
        n.where = NozzleWhere::Retired;
        n.retiredWhy = QStringLiteral("retired before the ledger began");
    }
    return n;
}

} // namespace

void readNozzleUnits(Reading& r, Fields& top, Catalogue& out) {
    for (const YamlNode* node : top.list(QStringLiteral("nozzles"))) {
        Fields f(r, *node, QStringLiteral("a nozzle"));
        Nozzle n = readNozzle(f);
        n.order = static_cast<int>(out.openings.nozzles.size());
        if (!n.serial.isEmpty()) out.openings.nozzles.append(n);
    }
}

void readNozzles(Reading& r, const YamlNode& root, Catalogue& out) {
    Fields top(r, root, QStringLiteral("nozzles.yaml"));
    for (const YamlNode* node : top.list(QStringLiteral("nozzle-types"), Need::Required)) {
        Fields f(r, *node, QStringLiteral("a nozzle type"));
        const NozzleType t = readType(f);
        if (!t.id.isEmpty()) out.nozzleTypes.append(t);
    }
    readNozzleUnits(r, top, out);
}

} // namespace interlude
