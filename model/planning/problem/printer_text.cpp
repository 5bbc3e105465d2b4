#include "model/planning/problem/printer_text.h"

#include <QDataStream>
#include <QIODevice>

namespace interlude::planning {

namespace {

void write(QDataStream& out, const std::optional<Temperature>& t) {
    out << t.has_value() << (t ? t->milliCelsius() : 0);
}

void write(QDataStream& out, const QList<ResidueItem>& items) {
    out << static_cast<int>(items.size());
    for (const ResidueItem& r : items) {
        out << r.material;
        write(out, r.chamberSeen);
        write(out, r.nozzleSeen);
    }
}

} // namespace

QByteArray printerText(const PrinterNow& p) {
    QByteArray text;
    QDataStream out(&text, QIODevice::WriteOnly);
    out << p.label;
    for (const PositionNow* here : {&p.part, &p.support}) out << here->nozzle << here->spool << here->loaded << here->inMelt;
    out << p.platformCover;
    write(out, p.residue);
    write(out, p.wiper);
    out << p.lastPart << p.lastSupport;
    write(out, p.chamberSet);
    write(out, p.nozzleSet);
    out << static_cast<int>(p.activity) << p.job << p.open;
    out << (p.lastPrintEnd ? toMs(*p.lastPrintEnd) : qint64(-1));
    return text;
}

} // namespace interlude::planning
