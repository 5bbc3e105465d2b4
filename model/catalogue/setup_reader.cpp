#include "model/catalogue/readers.h"

namespace interlude {

namespace {

const char* const dressed[] = {"part",       "support",       "part-nozzle",    "support-nozzle",
                               "part-spool", "support-spool", "platform-cover", "residue"};

OpeningResidue readResidue(Reading& r, const YamlNode& node) {
    Fields f(r, node, QStringLiteral("a residue"));
    OpeningResidue out;
    QString material;
    if (const YamlNode* n = f.take(QStringLiteral("material"), Need::Required))
        if (n->kind != YamlNode::Kind::Scalar || n->text.trimmed() != QStringLiteral("unknown"))
            f.refersTo(Kind::Material, QStringLiteral("material"), out.material);
    f.celsius(QStringLiteral("chamber-max-c"), out.chamberMax);
    f.celsius(QStringLiteral("nozzle-max-c"), out.nozzleMax);
    return out;
}

void readPosition(Fields& f, const QString& prefix, MaterialId& material, NozzleSerial& nozzle, SpoolId& spool) {
    f.refersTo(Kind::Material, prefix, material);
    f.refersTo(Kind::Nozzle, prefix + QStringLiteral("-nozzle"), nozzle);
    f.refersTo(Kind::Spool, prefix + QStringLiteral("-spool"), spool);
    if (!spool.isEmpty() && material.isEmpty() && !f.has(prefix))
        f.complain(prefix + QStringLiteral("-spool"), QStringLiteral("a spool is loaded but `%1` names no material").arg(prefix),
                   QStringLiteral("name the material that is loaded"));
}

OpeningSetup readSetup(Fields& f) {
    OpeningSetup s;
    f.refersTo(Kind::Printer, QStringLiteral("printer"), s.printer, Need::Required);
    f.text(QStringLiteral("label"), s.label, Need::Optional, 64);
    readPosition(f, QStringLiteral("part"), s.part, s.partNozzle, s.partSpool);
    readPosition(f, QStringLiteral("support"), s.support, s.supportNozzle, s.supportSpool);
    f.choice<QString>(QStringLiteral("platform-cover"), s.platformCover,
                      {{QStringLiteral("new"), QStringLiteral("fresh")}, {QStringLiteral("fresh"), QStringLiteral("fresh")},
                       {QStringLiteral("used"), QStringLiteral("used")}});
    for (const YamlNode* n : f.list(QStringLiteral("residue"))) s.residue.append(readResidue(f.reading(), *n));
    f.localTime(QStringLiteral("last-print"), s.lastPrint, true);
    if (f.has(QStringLiteral("label")))
        for (const char* key : dressed)
            if (const QString other = QString::fromLatin1(key); f.has(other))
                f.complain(other, QStringLiteral("a setup known by its label has no `%1`").arg(other),
                           QStringLiteral("remove the label, or describe nothing else"));
    return s;
}

/// One position of one opening setup against the things that it names.
class PositionCheck {
public:
    PositionCheck(Reading& r, const Catalogue& c, const OpeningSetup& s, const YamlNode& entry, Role role)
        : m_r(r), m_c(c), m_setup(s), m_entry(entry), m_part(role == Role::Part), m_role(role),
          m_prefix(m_part ? QStringLiteral("part") : QStringLiteral("support")) {}

    void run() {
        if (const Material* m = sureMaterial()) material(*m);
        if (const Nozzle* n = nozzleNamed(m_part ? m_setup.partNozzle : m_setup.supportNozzle)) nozzle(*n);
        if (const Spool* s = spoolNamed(m_part ? m_setup.partSpool : m_setup.supportSpool)) spool(*s);
    }

private:
    Where at(const QString& suffix) const { return whereOf(m_entry, m_prefix + suffix); }
    const Material* sureMaterial() const {
        const MaterialId& id = m_part ? m_setup.part : m_setup.support;
        return m_r.sure(Kind::Material, id) ? m_c.material(id) : nullptr;
    }
    const PrinterType* surePrinterType() const {
        const PrinterType* type = m_c.typeOf(m_setup.printer);
        return type && m_r.sure(Kind::PrinterType, type->id) ? type : nullptr;
    }
    const Nozzle* nozzleNamed(const QString& serial) const {
        for (const Nozzle& n : m_c.openings.nozzles)
            if (n.serial == serial && m_r.sure(Kind::Nozzle, serial)) return &n;
        return nullptr;
    }
    const Spool* spoolNamed(const QString& id) const {
        for (const Spool& s : m_c.openings.spools)
            if (s.id == id && m_r.sure(Kind::Spool, id)) return &s;
        return nullptr;
    }
    void material(const Material& m) {
        if (m.role != m_role)
            m_r.complain(at({}), QStringLiteral("`%1` is a %2 material").arg(m.id, m_part ? QStringLiteral("support") : QStringLiteral("part")),
                         QStringLiteral("a %1 material is wanted here").arg(m_prefix));
        const PrinterType* type = surePrinterType();
        if (!type) return;
        if (!m_part && !type->supportPosition)
            m_r.complain(at({}), QStringLiteral("printers of type `%1` have no support position").arg(type->id),
                         QStringLiteral("remove it, or set `support-position: true` there"));
        if (m_part && m.chamber && type->chamberMax && *m.chamber > *type->chamberMax)
            m_r.warn(at({}), QStringLiteral("`%1` wants a chamber at %2 °C, above the %3 °C of `%4`")
                         .arg(m.id).arg(m.chamber->celsius()).arg(type->chamberMax->celsius()).arg(type->id),
                     QStringLiteral("check both figures"));
    }
    void nozzle(const Nozzle& n) {
        if (n.where == NozzleWhere::Retired)
            m_r.complain(at(QStringLiteral("-nozzle")), QStringLiteral("`%1` is retired").arg(n.serial),
                         QStringLiteral("a retired nozzle is not mounted; check nozzles.yaml"));
        const NozzleType* type = m_r.sure(Kind::NozzleType, n.type) ? m_c.nozzleType(n.type) : nullptr;
        const PrinterType* printer = surePrinterType();
        if (type && !type->roles.isEmpty() && !type->roles.contains(m_role))
            m_r.complain(at(QStringLiteral("-nozzle")), QStringLiteral("`%1` of type `%2` does not fit the %3 position").arg(n.serial, n.type, m_prefix),
                         QStringLiteral("check `roles` of that type"));
        if (type && printer && !type->printerTypes.isEmpty() && !type->printerTypes.contains(printer->id))
            m_r.complain(at(QStringLiteral("-nozzle")), QStringLiteral("`%1` of type `%2` does not fit printers of type `%3`").arg(n.serial, n.type, printer->id),
                         QStringLiteral("check `printer-types` of that nozzle type"));
        const Material* m = sureMaterial();
        if (m && m_r.exists(Kind::MeltFamily, n.meltFamily) && n.meltFamily != m->meltFamily)
            m_r.warn(at(QStringLiteral("-nozzle")),
                     QStringLiteral("`%1` has served the melt family `%2`, `%3` is of `%4`").arg(n.serial, n.meltFamily, m->id, m->meltFamily),
                     QStringLiteral("a nozzle serves one melt family once used"));
    }
    void spool(const Spool& s) {
        const QString material = m_part ? m_setup.part : m_setup.support;
        if (m_r.exists(Kind::Material, material) && m_r.exists(Kind::Material, s.material) && s.material != material)
            m_r.complain(at(QStringLiteral("-spool")), QStringLiteral("`%1` is a spool of `%2`, not of `%3`").arg(s.id, s.material, material),
                         QStringLiteral("name the spool that is loaded"));
    }

    Reading& m_r;
    const Catalogue& m_c;
    const OpeningSetup& m_setup;
    const YamlNode& m_entry;
    bool m_part;
    Role m_role;
    QString m_prefix;
};

/// A thing can be in one position only.
void checkOnce(Reading& r, QHash<QString, Where>& seen, const QString& id, const Where& at, const QString& what) {
    if (id.isEmpty()) return;
    if (const auto first = seen.constFind(id); first != seen.constEnd())
        r.complain(at, QStringLiteral("`%1` is %2 in two places").arg(id, what), QStringLiteral("line %1 has it already").arg(first->line));
    else
        seen.insert(id, at);
}

} // namespace

void readSetups(Reading& r, const YamlNode& root, Catalogue& out) {
    Fields top(r, root, QStringLiteral("setups.yaml"));
    QHash<QString, Where> printers;
    for (const YamlNode* node : top.list(QStringLiteral("setups"), Need::Required)) {
        Fields f(r, *node, QStringLiteral("a setup"));
        const OpeningSetup s = readSetup(f);
        const YamlNode* print = f.take(QStringLiteral("print"));
        const std::optional<OpeningPrint> running = print ? readRunningPrint(r, *print, s.printer) : std::nullopt;
        if (s.printer.isEmpty()) continue;
        const Where at = f.where(QStringLiteral("printer"));
        if (const auto first = printers.constFind(s.printer); first != printers.constEnd()) {
            r.complain(at, QStringLiteral("`%1` has two setups").arg(s.printer), QStringLiteral("the first is on line %1; keep one").arg(first->line));
            continue;
        }
        printers.insert(s.printer, at);
        out.openings.setups.append(s);
        if (running) out.openings.prints.append(*running);
    }
}

void checkSetups(Reading& r, const Catalogue& c) {
    const YamlNode* root = r.tree(QStringLiteral("setups.yaml"));
    const YamlNode* list = root ? root->find(QStringLiteral("setups")) : nullptr;
    if (!list) return;
    QHash<QString, Where> nozzles, spools;
    for (const OpeningSetup& s : c.openings.setups) {
        const auto entry = std::find_if(list->items.begin(), list->items.end(), [&](const YamlNode& n) {
            const YamlNode* printer = n.find(QStringLiteral("printer"));
            return printer && printer->text.trimmed() == s.printer;
        });
        if (entry == list->items.end()) continue;
        const auto at = [&](const char* key) { return whereOf(*entry, QString::fromLatin1(key)); };
        checkOnce(r, nozzles, s.partNozzle, at("part-nozzle"), QStringLiteral("mounted"));
        checkOnce(r, nozzles, s.supportNozzle, at("support-nozzle"), QStringLiteral("mounted"));
        checkOnce(r, spools, s.partSpool, at("part-spool"), QStringLiteral("loaded"));
        checkOnce(r, spools, s.supportSpool, at("support-spool"), QStringLiteral("loaded"));
        PositionCheck(r, c, s, *entry, Role::Part).run();
        PositionCheck(r, c, s, *entry, Role::Support).run();
        if (s.lastPrint && c.fleet.exampleClock && *s.lastPrint > instantOf(*c.fleet.exampleClock))
            r.complain(at("last-print"), QStringLiteral("`last-print` lies after `example-clock`"),
                       QStringLiteral("it has not happened yet when the example begins"));
    }
    for (const Printer& p : c.fleet.printers) {
        const bool there = std::any_of(c.openings.setups.begin(), c.openings.setups.end(),
                                       [&](const OpeningSetup& s) { return s.printer == p.id; });
        if (!there)
            r.warn(r.where(Kind::Printer, p.id, QStringLiteral("id")), QStringLiteral("nothing says what `%1` wears").arg(p.id),
                   QStringLiteral("add its setup to setups.yaml, or declare it in the window"));
    }
}

} // namespace interlude
