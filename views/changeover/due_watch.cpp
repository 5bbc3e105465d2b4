#include "views/changeover/due_watch.h"

#include <QCoreApplication>

namespace interlude {

namespace {
QString tr(const char* text) {
    return QCoreApplication::translate("DueWatch", text);
}
} // namespace

QStringList DueWatch::look(const Shop& shop, Instant now, const PrinterId& attended) {
    QStringList out;
    const auto name = [&](const PrinterId& id) { return shop.catalogue().printerName(id); };
    QSet<QString> still;
    for (const Countdown& c : allCountdowns(shop, now)) {
        if (!c.due || *c.due > now) continue;
        // A fresh reading moves the end; when that later end passes, it is said again.
        const QString key = QStringLiteral("%1/%2/%3/%4").arg(c.session).arg(c.printer, c.step).arg(toMs(*c.due) / 1000);
        still.insert(key);
        if (!m_said.contains(key)) out << tr("%1: %2 is over").arg(name(c.printer), c.title);
    }
    m_said = still;
    QMap<qint64, bool> waiting;
    for (const SessionState& s : shop.sessions()) {
        if (s.phase != SessionPhase::Open) continue;
        const Guide g = guide(shop, s, now);
        const bool waits = g.current.isEmpty() && !g.finished;
        if (m_waiting.value(s.number, false) && !waits && s.printer != attended) out << tr("%1: people are needed").arg(name(s.printer));
        waiting.insert(s.number, waits);
    }
    m_waiting = waiting;
    return out;
}

} // namespace interlude
