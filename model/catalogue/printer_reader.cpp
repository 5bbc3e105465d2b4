#include "model/catalogue/readers.h"

#include <QRegularExpression>

namespace interlude {

namespace {

const Range timeConstant{0, 1e6, QStringLiteral("s"), true};
const Range standardError{0, 1e6, {}};

void readHeating(Fields& type, const QString& key, std::optional<HeatingConstants>& out,
                 const std::optional<Temperature>& limit) {
    const YamlNode* node = type.take(key);
    if (!node) return;
    Fields f(type.reading(), *node, QStringLiteral("`%1`").arg(key));
    HeatingConstants h;
    f.seconds(QStringLiteral("tau-s"), h.tau, timeConstant, Need::Required);
    f.celsius(QStringLiteral("ceiling-c"), h.ceiling, Need::Required);
    f.minutes(QStringLiteral("settle-minutes"), h.settle);
    if (limit && f.has(QStringLiteral("ceiling-c")) && h.ceiling <= *limit)
        type.reading().warn(f.where(QStringLiteral("ceiling-c")),
                            QStringLiteral("`ceiling-c` is %1, at or below the printer type's own limit of %2 °C")
                                .arg(h.ceiling.celsius()).arg(limit->celsius()),
                            QStringLiteral("heating to that limit cannot be predicted; check both figures"));
    out = h;
}

void readChamberCooling(Fields& type, std::optional<ChamberCooling>& out) {
    const YamlNode* node = type.take(QStringLiteral("chamber-cool"));
    if (!node) return;
    Fields f(type.reading(), *node, QStringLiteral("`chamber-cool`"));
    ChamberCooling c;
    f.seconds(QStringLiteral("tau-s"), c.tau, timeConstant, Need::Required);
    f.seconds(QStringLiteral("tau-se-s"), c.tauSe, standardError, Need::Required);
    out = c;
}

void readHeadCooling(Fields& type, std::optional<HeadCooling>& out) {
    const YamlNode* node = type.take(QStringLiteral("head-cool"));
    if (!node) return;
    Fields f(type.reading(), *node, QStringLiteral("`head-cool`"));
    HeadCooling h;
    const Range capacity{0, 1e7, QStringLiteral("J/K"), true}, conductance{0, 1e4, QStringLiteral("W/K"), true};
    f.number(QStringLiteral("c1-j-per-k"), h.c1, capacity, Need::Required);
    f.number(QStringLiteral("c2-j-per-k"), h.c2, capacity, Need::Required);
    const auto pair = [&](const QString& key, const QString& seKey, double& g, double& se) {
        const bool both = f.number(key, g, conductance, Need::Required) & f.number(seKey, se, standardError, Need::Required);
        if (both && g - 2 * se <= 0)
            type.reading().warn(f.where(seKey), QStringLiteral("`%1` is so great that `%2` less twice of it is not above 0").arg(seKey, key),
                                QStringLiteral("there will be no countdown for this head; measure it better"));
    };
    pair(QStringLiteral("g12-w-per-k"), QStringLiteral("g12-se"), h.g12, h.g12Se);
    pair(QStringLiteral("g20-w-per-k"), QStringLiteral("g20-se"), h.g20, h.g20Se);
    out = h;
}

void readThermal(Fields& f, PrinterType& t) {
    readHeating(f, QStringLiteral("chamber-heat"), t.chamberHeat, t.chamberMax);
    readChamberCooling(f, t.chamberCool);
    readHeating(f, QStringLiteral("head-heat"), t.headHeat, t.nozzleMax);
    readHeadCooling(f, t.headCool);
    readHeating(f, QStringLiteral("platform-heat"), t.platformHeat, {});
    f.number(QStringLiteral("purge-flow-mm3-per-s"), t.purgeFlowMm3PerS, {0, 1000, QStringLiteral("mm³/s"), true});
}

QString measuredFile(Fields& f) {
    static const QRegularExpression good(QStringLiteral("^[A-Za-z0-9][A-Za-z0-9._-]{0,99}\\.csv$"));
    QString name;
    if (!f.text(QStringLiteral("measured-changeovers"), name)) return {};
    if (good.match(name).hasMatch()) return name;
    f.complain(QStringLiteral("measured-changeovers"), QStringLiteral("`%1` is not the name of a CSV file").arg(name.left(60)),
               QStringLiteral("name a .csv file that lies in the fleet folder itself"));
    return {};
}

} // namespace

bool readEnvelope(Fields& f, const QString& key, std::optional<Envelope>& out) {
    const YamlNode* node = f.take(key);
    if (!node) return false;
    if (node->kind != YamlNode::Kind::Sequence || node->items.size() != 3) {
        f.complain(key, QStringLiteral("`%1` wants three lengths").arg(key), QStringLiteral("write [x, y, z] in mm"));
        return false;
    }
    const Range size{0, 10'000, QStringLiteral("mm"), true};
    Length lengths[3];
    for (std::size_t i = 0; i < 3; ++i) {
        const auto mm = numberOf(f.reading(), node->items[i], key, size);
        if (!mm) return false;
        lengths[i] = Length::fromMm(*mm);
    }
    out = Envelope{lengths[0], lengths[1], lengths[2]};
    return true;
}

void readPrinterTypes(Fields& fleet, Fleet& out) {
    const auto nodes = fleet.list(QStringLiteral("printer-types"), Need::Required, Empty::Refused);
    if (nodes.empty()) fleet.reading().cannotKnow(Kind::PrinterType);
    for (const YamlNode* node : nodes) {
        Fields f(fleet.reading(), *node, QStringLiteral("a printer type"));
        PrinterType t;
        const bool named = f.defines(Kind::PrinterType, QStringLiteral("id"), t.id);
        t.name = t.id;
        f.text(QStringLiteral("name"), t.name);
        f.celsius(QStringLiteral("chamber-max-c"), t.chamberMax);
        f.celsius(QStringLiteral("nozzle-max-c"), t.nozzleMax);
        if (t.chamberMax && t.nozzleMax && *t.chamberMax >= *t.nozzleMax)
            f.complain(QStringLiteral("chamber-max-c"), QStringLiteral("`chamber-max-c` is not below `nozzle-max-c`"),
                       QStringLiteral("check both figures"));
        readEnvelope(f, QStringLiteral("envelope-mm"), t.envelope);
        f.refersToAll(Kind::Material, QStringLiteral("materials"), t.materials, Empty::Refused);
        f.yesNo(QStringLiteral("support-position"), t.supportPosition);
        f.minutes(QStringLiteral("part-removal-minutes"), t.partRemoval);
        f.minutes(QStringLiteral("start-minutes"), t.start);
        f.minutes(QStringLiteral("nozzle-removal-minutes"), t.nozzleRemoval);
        f.money(QStringLiteral("hourly-rate"), t.hourlyRate);
        f.text(QStringLiteral("platform-cover"), t.platformCover);
        readThermal(f, t);
        if (named) out.printerTypes.append(t);
    }
}

void readPrinters(Fields& fleet, Fleet& out) {
    const auto nodes = fleet.list(QStringLiteral("printers"), Need::Required, Empty::Refused);
    if (nodes.empty()) fleet.reading().cannotKnow(Kind::Printer);
    for (const YamlNode* node : nodes) {
        Fields f(fleet.reading(), *node, QStringLiteral("a printer"));
        Printer p;
        const bool named = f.defines(Kind::Printer, QStringLiteral("id"), p.id);
        p.name = p.id;
        f.text(QStringLiteral("name"), p.name);
        f.refersTo(Kind::PrinterType, QStringLiteral("type"), p.type, Need::Required);
        f.refersTo(Kind::Place, QStringLiteral("place"), p.place);
        f.yesNo(QStringLiteral("unattended"), p.unattended);
        if (const QString file = measuredFile(f); !file.isEmpty()) {
            p.measured = readMeasured(f.reading(), file, f.where(QStringLiteral("measured-changeovers")));
            p.hasMeasured = true;
        }
        if (named) out.printers.append(p);
    }
}

} // namespace interlude
