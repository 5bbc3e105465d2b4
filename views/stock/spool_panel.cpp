#include "views/stock/spool_panel.h"

#include "views/lists/list_view.h"
#include "views/stock/spool_rows.h"

namespace interlude {

SpoolPanel::SpoolPanel(Bench& bench, QWidget* parent)
    : SpoolPanel(bench, entryModel(bench.catalogue().fleet.zone), parent) {}

SpoolPanel::SpoolPanel(Bench& bench, lists::ListModel<Entry>* entries, QWidget* parent)
    : FactPanel(tr("No spool chosen"), tr("Choose one in the list to see its entries."),
                new lists::ListView(QStringLiteral("spool-entries"), tr("Entries of the spool"), entries), parent),
      m_bench(bench), m_entries(entries) {
    history()->setFirstSort(0, Qt::DescendingOrder);
    history()->setEmptyText(tr("No entry has changed its grams yet."));
    showFacts({});
}

lists::ListModel<SpoolPanel::Entry>* SpoolPanel::entryModel(const QTimeZone& zone) {
    return new lists::ListModel<Entry>(
        {{tr("When"),
          [zone](const Entry& e) {
              lists::Cell c;
              c.text = toZone(e.entry.at, zone).toString(QStringLiteral("yyyy-MM-dd HH:mm"));
              c.sort = QVariant::fromValue<qlonglong>(toMs(e.entry.at) * 1000 + e.number);
              return c;
          },
          false, 16},
         {tr("Change, g"),
          [](const Entry& e) {
              lists::Cell c;
              c.text = QStringLiteral("%1%2").arg(e.entry.change.milligrams() > 0 ? QStringLiteral("+") : QString())
                           .arg(e.entry.change.grams(), 0, 'f', 1);
              c.sort = QVariant::fromValue<qlonglong>(e.entry.change.milligrams());
              return c;
          },
          true, 9},
         {tr("Why"),
          [](const Entry& e) {
              lists::Cell c;
              c.text = e.entry.reference.isEmpty() ? e.entry.why : e.entry.why + QStringLiteral(" · ") + e.entry.reference;
              c.tip = c.text;
              return c;
          },
          false, 0}},
        [](const Entry& e) { return QString::number(e.number); });
}

bool SpoolPanel::fill(const QString& id) {
    const Spool* found = m_bench.shop().spool(id);
    if (!found) return false;
    const Spool spool = *found;
    const SpoolRow row = spoolRow(m_bench, spool);
    const Material* m = m_bench.catalogue().material(spool.material);
    setTitle(spool.id);
    addFact(tr("Material"), row.material);
    addFact(tr("Lot"), spool.lot);
    addFact(tr("Drying"), dryWord(row.dry), row.dry == DryState::Overdue ? QStringLiteral("alarm") : QString());
    if (m && m->exposureLimit) {
        addFact(tr("Exposed"), tr("%1 of %2 allowed").arg(hours(row.exposed), hours(*m->exposureLimit)));
        if (m->drying && m->dryingTime)
            addFact(tr("To dry"), tr("%1 °C for %2").arg(m->drying->celsius()).arg(hours(*m->dryingTime)));
    }
    if (spool.dried) addFact(tr("Last dried"), m_bench.longTime(*spool.dried));
    addFact(tr("Reserved for"), row.reserved);
    addFact(tr("Left"), spool.left ? tr("%1 g").arg(row.left) : tr("unknown: weigh it with its tare"));
    if (row.usedUp) addFact(tr("Runs out"), row.runsOut, QStringLiteral("warning"));
    if (spool.tare) addFact(tr("Tare"), tr("%1 g").arg(spool.tare->grams(), 0, 'f', 0));
    addFact(tr("Where"), row.where);
    if (spool.received) addFact(tr("Received"), m_bench.longTime(*spool.received));
    if (spool.expires)
        addFact(tr("Expires"), toZone(*spool.expires, m_bench.catalogue().fleet.zone).toString(QStringLiteral("yyyy-MM-dd")),
                row.expired ? QStringLiteral("warning") : QString());
    addFact(tr("Retired"), spool.retiredWhy);
    QList<Entry> entries;
    for (const StockEntry& e : spool.entries) entries.append({static_cast<int>(entries.size()), e});
    m_entries->setRows(entries);
    return true;
}

} // namespace interlude
