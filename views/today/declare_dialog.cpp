// Declaring what a printer wears.

#include "views/asking/row_table.h"
#include "views/look/widgets.h"
#include "views/today/printer_dialogs.h"
#include "views/words/words.h"

#include <QComboBox>
#include <QHeaderView>
#include <QLineEdit>
#include <QTableWidget>

namespace interlude {

namespace {

enum Column { MaterialColumn, ChamberColumn, NozzleColumn, Columns };

QString tr(const char* text) {
    return QCoreApplication::translate("declare_dialog", text);
}

QString degrees(const std::optional<Temperature>& t) {
    return t ? words::number(t->celsius()) : QString();
}

QList<Choice> nozzles(const Shop& shop, const PrinterId& printer, Role role) {
    QList<Choice> out{{tr("none"), QString()}};
    for (const Nozzle& n : shop.stock().nozzles) {
        const NozzleType* t = shop.catalogue().nozzleType(n.type);
        const bool here = n.where == NozzleWhere::Mounted && n.place == printer;
        if (t && t->roles.contains(role) && (here || n.where == NozzleWhere::Shelf))
            out.append({QStringLiteral("%1 · %2 · %3").arg(n.serial, t->name, words::runVolume(n.run)), n.serial});
    }
    return out;
}

QList<Choice> spools(const Shop& shop, const PrinterId& printer, Role role) {
    QList<Choice> out{{tr("none"), QString()}};
    for (const Spool& s : shop.stock().spools) {
        const Material* m = shop.catalogue().material(s.material);
        const bool here = s.where == SpoolWhere::Loaded && s.place == printer;
        if (m && m->role == role && (here || s.where == SpoolWhere::Shelf))
            out.append({QStringLiteral("%1 · %2").arg(s.id, words::material(shop.catalogue(), m->id)), s.id});
    }
    return out;
}

void addResidueRow(QTableWidget* table, const Catalogue& c, const OpeningResidue& r) {
    const int row = table->rowCount();
    table->insertRow(row);
    auto* box = new QComboBox;
    box->setAccessibleName(tr("Residue material"));
    box->addItem(tr("unknown material"), QString());
    for (const Material& m : c.materials) box->addItem(words::material(c, m.id), m.id);
    box->setCurrentIndex(std::max(0, box->findData(r.material)));
    table->setCellWidget(row, MaterialColumn, box);
    table->setItem(row, ChamberColumn, new QTableWidgetItem(degrees(r.chamberMax)));
    table->setItem(row, NozzleColumn, new QTableWidgetItem(degrees(r.nozzleMax)));
}

QWidget* residueTable(QTableWidget* table, const Catalogue& c, const OpeningSetup& now) {
    table->setObjectName(QStringLiteral("declareResidue"));
    table->setAccessibleName(tr("Residue since the last clean-out"));
    table->setColumnCount(Columns);
    table->setHorizontalHeaderLabels({tr("Material"), tr("Highest chamber °C"), tr("Highest nozzle °C")});
    table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table->horizontalHeader()->setSectionResizeMode(MaterialColumn, QHeaderView::Stretch);
    table->setMinimumHeight(16 * look::unit);
    for (const OpeningResidue& r : now.residue) addResidueRow(table, c, r);
    return rowTable(table, {tr("Add residue"), QStringLiteral("addResidue")},
                    {tr("Remove residue"), QStringLiteral("removeResidue")}, [table, &c] { addResidueRow(table, c, {}); });
}

Outcome<QList<OpeningResidue>> residueFrom(const QTableWidget* table) {
    QList<OpeningResidue> out;
    for (int row = 0; row < table->rowCount(); ++row) {
        OpeningResidue r;
        r.material = qobject_cast<QComboBox*>(table->cellWidget(row, MaterialColumn))->currentData().toString();
        for (const int column : {ChamberColumn, NozzleColumn}) {
            const QTableWidgetItem* item = table->item(row, column);
            const QString text = item ? item->text().trimmed() : QString();
            if (text.isEmpty()) continue;
            auto v = words::readNumber(text);
            if (!v || *v < 0 || *v > 600)
                return refusal(QStringLiteral("residue"), tr("Residue %1: “%2” cannot be").arg(row + 1).arg(text),
                               tr("a temperature in °C, or nothing when it is not known"));
            (column == ChamberColumn ? r.chamberMax : r.nozzleMax) = Temperature::fromCelsius(*v);
        }
        out.append(r);
    }
    return out;
}

} // namespace

OpeningSetup setupOf(const PrinterNow& p) {
    OpeningSetup s;
    s.printer = p.id;
    s.label = p.label;
    s.part = p.part.loaded;
    s.support = p.support.loaded;
    s.partNozzle = p.part.nozzle;
    s.supportNozzle = p.support.nozzle;
    s.partSpool = p.part.spool;
    s.supportSpool = p.support.spool;
    s.platformCover = p.platformCover == QStringLiteral("fresh") ? QStringLiteral("new") : p.platformCover;
    for (const ResidueItem& r : p.residue) s.residue.append({r.material, r.chamberSeen, r.nozzleSeen});
    s.lastPrint = p.lastPrintEnd;
    return s;
}

AskDialog* askDeclare(Bench& bench, const PrinterId& printer, QWidget* parent) {
    const PrinterNow* p = bench.shop().printer(printer);
    if (!p) return nullptr;
    const OpeningSetup now = setupOf(*p);
    auto* d = new AskDialog(tr("%1: declare what it wears").arg(bench.catalogue().printerName(printer)),
                            tr("Whatever the program believed: what you see at the printer counts from now on."),
                            tr("Declare"), parent);
    d->setObjectName(QStringLiteral("declareDialog"));
    d->setMinimumWidth(112 * look::unit); // the name of a material stands whole beside two temperatures
    const Shop& shop = bench.shop();
    QComboBox* partNozzle = d->addChoice(QStringLiteral("declarePartNozzle"), tr("Part nozzle"),
                                         nozzles(shop, printer, Role::Part), now.partNozzle);
    QComboBox* supportNozzle = d->addChoice(QStringLiteral("declareSupportNozzle"), tr("Support nozzle"),
                                            nozzles(shop, printer, Role::Support), now.supportNozzle);
    QComboBox* partSpool = d->addChoice(QStringLiteral("declarePartSpool"), tr("Part spool"),
                                        spools(shop, printer, Role::Part), now.partSpool);
    QComboBox* supportSpool = d->addChoice(QStringLiteral("declareSupportSpool"), tr("Support spool"),
                                           spools(shop, printer, Role::Support), now.supportSpool);
    QComboBox* cover = d->addChoice(QStringLiteral("declareCover"), tr("Platform cover"),
                                    {{tr("none or not tracked"), QString()},
                                     {tr("new"), QStringLiteral("new")},
                                     {tr("used"), QStringLiteral("used")}},
                                    now.platformCover);
    auto* table = new QTableWidget;
    d->addWidget(tr("Residue"), residueTable(table, bench.catalogue(), now));
    QLineEdit* why = d->addLine(QStringLiteral("declareWhy"), tr("Reason"));
    d->setAct([=, &bench]() -> std::optional<Finding> {
        if (auto f = missingField(tr("Reason"), why->text())) return f;
        OpeningSetup s = now;
        s.label.clear();
        s.partNozzle = partNozzle->currentData().toString();
        s.supportNozzle = supportNozzle->currentData().toString();
        s.partSpool = partSpool->currentData().toString();
        s.supportSpool = supportSpool->currentData().toString();
        const auto material = [&](const SpoolId& id) {
            const auto spool = bench.shop().stock().spools.constFind(id);
            return spool == bench.shop().stock().spools.cend() ? MaterialId() : spool->material;
        };
        s.part = material(s.partSpool);
        s.support = material(s.supportSpool);
        s.platformCover = cover->currentData().toString();
        auto residue = residueFrom(table);
        if (!residue) return residue.error();
        s.residue = *residue;
        return findingOf(
            bench.workbench().perform(act::PrinterDeclared{printer, s, why->text().trimmed()}, bench.who()));
    });
    d->open();
    why->setFocus();
    return d;
}

} // namespace interlude
