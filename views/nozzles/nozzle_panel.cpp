#include "views/nozzles/nozzle_panel.h"

#include "views/lists/list_view.h"
#include "views/nozzles/nozzle_rows.h"

#include <QFormLayout>
#include <QVBoxLayout>

namespace interlude {

NozzlePanel::NozzlePanel(Bench& bench, QWidget* parent) : Panel({}, parent), m_bench(bench), m_facts(new QFormLayout) {
    const QTimeZone zone = bench.catalogue().fleet.zone;
    m_measured = new lists::ListModel<Measured>(
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
    m_list = new lists::ListView(QStringLiteral("nozzle-measurements"), tr("Measurements of the nozzle"), m_measured);
    m_list->setFirstSort(0, Qt::DescendingOrder);
    m_list->setEmptyText(tr("Not measured yet."));
    m_facts->setHorizontalSpacing(2 * look::unit);
    m_facts->setVerticalSpacing(look::unit / 2);
    body()->addLayout(m_facts);
    body()->addWidget(m_list, 1);
    setMinimumWidth(44 * look::unit);
    showNozzle({});
}

void NozzlePanel::addFact(const QString& name, const QString& value, const QString& tone) {
    if (value.isEmpty()) return;
    auto* said = look::label(look::Text::Body, value);
    look::setTone(said, tone);
    m_facts->addRow(look::mutedLabel(look::Text::Body, name), said);
}

void NozzlePanel::showNozzle(const NozzleSerial& serial) {
    while (m_facts->rowCount() > 0) m_facts->removeRow(0);
    const auto& nozzles = m_bench.shop().stock().nozzles;
    const auto found = nozzles.constFind(serial);
    m_list->setVisible(found != nozzles.constEnd());
    if (found == nozzles.constEnd()) {
        setTitle(tr("No nozzle chosen"));
        m_facts->addRow(look::mutedLabel(look::Text::Body, tr("Choose one in the list to see its measurements.")));
        m_measured->setRows({});
        return;
    }
    const Nozzle& nozzle = *found;
    const NozzleRow row = nozzleRow(m_bench, nozzle);
    const NozzleType* type = m_bench.catalogue().nozzleType(nozzle.type);
    setTitle(nozzle.serial);
    addFact(tr("Type"), type ? QStringLiteral("%1, %2").arg(type->name, row.type) : row.type);
    addFact(tr("Melt family"), nozzle.meltFamily.isEmpty() ? tr("none yet: serves any until its first use") : nozzle.meltFamily);
    addFact(tr("Where"), row.where);
    addFact(tr("Use so far"), row.use);
    addFact(tr("Life left"), row.life, row.lifeTone);
    if (type) {
        if (const auto plain = lifeLeft(nozzle, *type, false)) addFact(tr("Allows still"), tr("%1 plain").arg(volumeText(*plain)));
        if (const auto rough = lifeLeft(nozzle, *type, true); rough && type->hardened)
            addFact(tr("or"), tr("%1 abrasive").arg(volumeText(*rough)));
        addFact(tr("Up to"), tr("%1 °C").arg(type->max.celsius()));
    }
    addFact(tr("Retired"), nozzle.retiredWhy);
    QList<Measured> rows;
    for (const NozzleMeasurement& m : nozzle.measurements) rows.append({static_cast<int>(rows.size()), m});
    m_measured->setRows(rows);
}

} // namespace interlude
