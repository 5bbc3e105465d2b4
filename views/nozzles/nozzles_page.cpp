#include "views/nozzles/nozzles_page.h"

#include "views/intake/import_dialog.h"
#include "views/nozzles/nozzle_acts.h"
#include "views/nozzles/nozzle_panel.h"
#include "views/nozzles/nozzle_rows.h"

namespace interlude {

NozzlesPage::NozzlesPage(Bench& bench, QWidget* parent)
    : NozzlesPage(bench,
                  new lists::ListModel<NozzleRow>(nozzleColumns(), [](const NozzleRow& r) { return r.nozzle.serial; }),
                  parent) {}

NozzlesPage::NozzlesPage(Bench& bench, lists::ListModel<NozzleRow>* model, QWidget* parent)
    : ListPage(bench,
               {QStringLiteral("nozzles"), tr("Nozzles"), tr("Acts on nozzles"), tr("Show retired nozzles"),
                tr("There is no nozzle yet. Receive the first one, import a CSV, or list nozzles in nozzles.yaml.")},
               model, new NozzlePanel(bench), parent),
      m_model(model) {
    addAct(tr("&Receive"), [&bench, this](const QString&) { return nozzle_acts::receive(bench, this); });
    addAct(tr("&Use so far"), [&bench, this](const QString& serial) { return nozzle_acts::stateUse(bench, serial, this); });
    addAct(tr("M&easure"), [&bench, this](const QString& serial) { return nozzle_acts::measure(bench, serial, this); });
    addAct(tr("Re&tire"), [&bench, this](const QString& serial) { return nozzle_acts::retire(bench, serial, this); });
    addTool(tr("&Import CSV…"), [&bench, this](const auto& say) { ImportDialog::choose(bench, EntryKind::Nozzles, this, say); });
    addLabels();
    complete();
}

void NozzlesPage::fill(bool withRetired) {
    m_model->setRows(nozzleRows(bench(), withRetired));
}

} // namespace interlude
