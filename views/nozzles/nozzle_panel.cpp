#include "views/nozzles/nozzle_panel.h"

#include "views/lists/list_view.h"
#include "views/nozzles/nozzle_rows.h"
#include "views/words/words.h"

namespace interlude {

NozzlePanel::NozzlePanel(Bench& bench, QWidget* parent)
    : NozzlePanel(bench, measuredModel(bench.catalogue().fleet.zone), parent) {}

NozzlePanel::NozzlePanel(Bench& bench, lists::ListModel<Measured>* measured, QWidget* parent)
    : FactPanel(tr("No nozzle chosen"), tr("Choose one in the list to see its measurements."),
                new lists::ListView(QStringLiteral("nozzle-measurements"), tr("Measurements of the nozzle"), measured),
                parent),
      m_bench(bench), m_measured(measured) {
    history()->setFirstSort(0, Qt::DescendingOrder);
    history()->setEmptyText(tr("Not measured yet."));
    showFacts({});
}

lists::ListModel<NozzlePanel::Measured>* NozzlePanel::measuredModel(const QTimeZone& zone) {
    return new lists::ListModel<Measured>(
        {{tr("When"),
          [zone](const Measured& m) {
              lists::Cell c;
              c.text = toZone(m.entry.at, zone).toString(QStringLiteral("yyyy-MM-dd HH:mm"));
              c.sort = QVariant::fromValue<qlonglong>(toMs(m.entry.at));
              return c;
          },
          false, 16},
         {tr("Orifice, mm"),
          [](const Measured& m) {
              lists::Cell c;
              c.text = QString::number(m.entry.orifice.mm(), 'f', 3);
              c.sort = QVariant::fromValue<qlonglong>(m.entry.orifice.micrometres());
              return c;
          },
          true, 10},
         {tr("Instrument"),
          [](const Measured& m) {
              lists::Cell c;
              c.text = m.entry.who.isEmpty() ? m.entry.instrument : m.entry.instrument + QStringLiteral(" · ") + m.entry.who;
              return c;
          },
          false, 0}},
        [](const Measured& m) { return QString::number(m.number); });
}

bool NozzlePanel::fill(const QString& serial) {
    const Nozzle* found = m_bench.shop().nozzle(serial);
    if (!found) return false;
    const Nozzle nozzle = *found;
    const NozzleRow row = nozzleRow(m_bench, nozzle);
    const NozzleType* type = m_bench.catalogue().nozzleType(nozzle.type);
    setTitle(nozzle.serial);
    addFact(tr("Type"), row.type);
    addFact(tr("Melt family"), nozzle.meltFamily.isEmpty() ? tr("none yet: serves any until its first use") : words::plain(nozzle.meltFamily));
    addFact(tr("Where"), row.where);
    addFact(tr("Use so far"), row.use);
    addFact(tr("Life left"), row.life, row.lifeTone);
    if (type) {
        if (const auto plain = lifeLeft(nozzle, *type, false)) addFact(tr("Allows still"), tr("%1 plain").arg(words::cm3(*plain)));
        if (const auto rough = lifeLeft(nozzle, *type, true); rough && type->hardened)
            addFact(tr("or"), tr("%1 abrasive").arg(words::cm3(*rough)));
        addFact(tr("Up to"), tr("%1 °C").arg(type->max.celsius()));
    }
    addFact(tr("Retired"), nozzle.retiredWhy);
    QList<Measured> rows;
    for (const NozzleMeasurement& m : nozzle.measurements) rows.append({static_cast<int>(rows.size()), m});
    m_measured->setRows(rows);
    return true;
}

} // namespace interlude
