#include "views/stock/stock_page.h"

#include "views/intake/import_dialog.h"
#include "views/stock/spool_acts.h"
#include "views/stock/spool_panel.h"
#include "views/stock/spool_rows.h"

namespace interlude {

StockPage::StockPage(Bench& bench, QWidget* parent)
    : StockPage(bench, new lists::ListModel<SpoolRow>(spoolColumns(), [](const SpoolRow& r) { return r.spool.id; }),
                parent) {}

StockPage::StockPage(Bench& bench, lists::ListModel<SpoolRow>* model, QWidget* parent)
    : ListPage(bench,
               {QStringLiteral("spools"), tr("Spools"), tr("Acts on spools"), tr("Show retired spools"),
                tr("There is no spool yet. Receive the first one, import a CSV, or list spools in spools.yaml.")},
               model, new SpoolPanel(bench), parent),
      m_model(model) {
    addAct(tr("&Receive"), [&bench, this](const QString&) { return spool_acts::receive(bench, this); });
    addAct(tr("&Weigh"), [&bench, this](const QString& id) { return spool_acts::weigh(bench, id, this); });
    addAct(tr("&Dry"), [&bench, this](const QString& id) { return spool_acts::dry(bench, id, this); });
    addAct(tr("Mo&ve"), [&bench, this](const QString& id) { return spool_acts::move(bench, id, this); });
    addAct(tr("&Load"), [&bench, this](const QString& id) { return spool_acts::load(bench, id, this); });
    addAct(tr("&Unload"), [&bench, this](const QString& id) { return spool_acts::unload(bench, id, this); });
    addAct(tr("Re&tire"), [&bench, this](const QString& id) { return spool_acts::retire(bench, id, this); });
    addTool(tr("&Import CSV…"), [&bench, this](const auto& say) { ImportDialog::choose(bench, EntryKind::Spools, this, say); });
    addLabels();
    // Exposure grows by the clock alone; a tenth of an hour is what is shown.
    connect(&bench, &Bench::ticked, this, [this, last = qint64(0)]() mutable {
        const qint64 minute = toMs(this->bench().now()) / 60000;
        if (minute == last) return;
        last = minute;
        refresh();
    });
    complete();
}

void StockPage::fill(bool withRetired) {
    m_model->setRows(spoolRows(bench(), withRetired));
}

} // namespace interlude
