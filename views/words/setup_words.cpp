#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude::words {

namespace {

QString none() {
    return QStringLiteral("—");
}

QString leaves(const Material& m) {
    switch (m.leaves) {
    case Leaves::Soluble: return QCoreApplication::translate("words", "soluble");
    case Leaves::BreakAway: return QCoreApplication::translate("words", "break-away");
    case Leaves::NotASupport: break;
    }
    return m.polymer;
}

/// Part polymer, how the support leaves, orifice of the part nozzle.
QString few(const Catalogue& c, const MaterialId& part, const MaterialId& support, const NozzleTypeId& nozzle) {
    QStringList words;
    if (!part.isEmpty()) words << polymer(c, part);
    if (const Material* m = c.material(support)) words << leaves(*m);
    if (const NozzleType* t = c.nozzleType(nozzle)) words << number(t->orifice.mm());
    return words.isEmpty() ? none() : words.join(QStringLiteral(" · "));
}

} // namespace

QString material(const Catalogue& c, const MaterialId& id) {
    if (id.isEmpty()) return none();
    const Material* m = c.material(id);
    return m ? QStringLiteral("%1 · %2").arg(m->polymer, m->name) : id;
}

QString polymer(const Catalogue& c, const MaterialId& id) {
    if (id.isEmpty()) return none();
    const Material* m = c.material(id);
    return m ? m->polymer : id;
}

QString nozzleType(const Catalogue& c, const NozzleTypeId& id) {
    if (id.isEmpty()) return none();
    const NozzleType* t = c.nozzleType(id);
    return t ? t->name : id;
}

QString mountedIn(const Catalogue& c, const PrinterId& printer, Role role) {
    return QStringLiteral("%1, %2").arg(c.printerName(printer), position(role));
}

QString setupNow(const Catalogue& c, const Stock& stock, const PrinterNow& p) {
    if (!p.label.isEmpty()) return p.label;
    const auto nozzle = stock.nozzles.constFind(p.part.nozzle);
    return few(c, p.part.loaded.isEmpty() ? p.part.inMelt : p.part.loaded,
               p.support.loaded.isEmpty() ? p.support.inMelt : p.support.loaded,
               nozzle == stock.nozzles.cend() ? NozzleTypeId() : nozzle->type);
}

QString setupWanted(const Catalogue& c, const Setup& s) {
    if (!s.label.isEmpty()) return s.label;
    return few(c, s.part, s.support, s.partNozzle);
}

QString pickLine(const Catalogue& c, const PickItem& item) {
    const QString where = c.placeName(item.place);
    QString text = item.count > 1 ? QStringLiteral("%1 × ").arg(item.count) : QString();
    // A spool's or a nozzle's id is what is scanned; of the rest the name says more.
    const bool byId = item.kind == QStringLiteral("nozzle") || item.kind == QStringLiteral("spool");
    text += byId && item.name != item.id ? QStringLiteral("%1 · %2").arg(item.id, item.name)
                                         : plain(item.name.isEmpty() ? item.id : item.name);
    if (!where.isEmpty()) text += QStringLiteral(" — %1").arg(where);
    if (!item.note.isEmpty()) text += QStringLiteral(" (%1)").arg(item.note);
    return item.missing ? QCoreApplication::translate("words", "▲ missing: %1").arg(text) : text;
}

} // namespace interlude::words
