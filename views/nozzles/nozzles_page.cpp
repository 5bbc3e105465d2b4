#include "views/nozzles/nozzles_page.h"

#include "views/forms/act_bar.h"
#include "views/forms/label_file.h"
#include "views/lists/list_view.h"
#include "views/look/look.h"
#include "views/nozzles/nozzle_acts.h"
#include "views/nozzles/nozzle_panel.h"
#include "views/nozzles/nozzle_rows.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QVBoxLayout>

namespace interlude {

NozzlesPage::NozzlesPage(Bench& bench, QWidget* parent)
    : QWidget(parent), m_bench(bench), m_acts(new forms::ActBar(tr("Acts on nozzles"))),
      m_model(new lists::ListModel<NozzleRow>(nozzleColumns(), [](const NozzleRow& r) { return r.nozzle.serial; })),
      m_list(new lists::ListView(QStringLiteral("nozzles"), tr("Nozzles"), m_model)),
      m_withRetired(new QCheckBox(tr("Show retired"))), m_panel(new NozzlePanel(bench)) {
    m_withRetired->setAccessibleName(tr("Show retired nozzles"));
    m_list->addTool(m_withRetired);
    m_list->setEmptyText(tr("There is no nozzle yet. Receive the first one, or list nozzles in nozzles.yaml."));
    m_list->setFirstSort(0, Qt::AscendingOrder);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(2 * look::unit, 2 * look::unit, 2 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    buildActs();
    all->addWidget(m_acts);
    auto* row = new QHBoxLayout;
    row->setSpacing(2 * look::unit);
    row->addWidget(m_list, 5);
    row->addWidget(m_panel, 2);
    all->addLayout(row, 1);

    connect(m_withRetired, &QCheckBox::toggled, this, &NozzlesPage::refresh);
    connect(&bench, &Bench::changed, this, &NozzlesPage::refresh);
    connect(&bench, &Bench::signedIn, this, &NozzlesPage::showChosen);
    connect(m_list, &lists::ListView::currentKeyChanged, this, &NozzlesPage::showChosen);
    connect(m_list, &lists::ListView::exported, this,
            [this](const QString& file, int rows) { m_acts->say(tr("%n row(s) written to %1", nullptr, rows).arg(file)); });
    connect(m_list, &lists::ListView::exportFailed, &bench, &Bench::refused);
    setFocusProxy(m_list);
    refresh();
}

void NozzlesPage::buildActs() {
    using Needs = forms::ActBar::Needs;
    const auto chosen = [this] { return m_list->currentKey(); };
    m_acts->add(tr("&Receive"), Needs::Person, [this] { begin(nozzle_acts::receive(m_bench, this)); });
    m_acts->add(tr("&Use so far"), Needs::Person, [=, this] { begin(nozzle_acts::stateUse(m_bench, chosen(), this)); });
    m_acts->add(tr("M&easure"), Needs::Person, [=, this] { begin(nozzle_acts::measure(m_bench, chosen(), this)); });
    m_acts->add(tr("Re&tire"), Needs::Person, [=, this] { begin(nozzle_acts::retire(m_bench, chosen(), this)); });
    m_acts->add(tr("La&bels"), Needs::Nothing, [this] { chooseLabelFile(); });
}

void NozzlesPage::begin(forms::ActDialog* dialog) {
    connect(dialog, &forms::ActDialog::performed, this, [this](const Event& event) {
        const QJsonValue nozzle = event.payload.value(QStringLiteral("nozzle"));
        const QString serial =
            nozzle.isObject() ? nozzle.toObject().value(QStringLiteral("serial")).toString() : nozzle.toString();
        m_list->select(serial);
        m_acts->say(tr("Recorded at %1: %2.").arg(m_bench.shortTime(event.recordedAt), serial));
    });
}

void NozzlesPage::refresh() {
    m_model->setRows(nozzleRows(m_bench, m_withRetired->isChecked()));
    showChosen();
}

void NozzlesPage::showChosen() {
    m_acts->update(!m_bench.who().isEmpty(), m_list->currentKey());
    m_panel->showNozzle(m_list->currentKey());
}

Outcome<int> NozzlesPage::writeLabels(const QString& file) {
    return forms::writeLabels(m_bench, QStringLiteral("nozzles"), m_list->labelKeys(), file);
}

void NozzlesPage::chooseLabelFile() {
    forms::chooseLabelFile(this, QStringLiteral("nozzle-labels.pdf"), [this](const QString& file) {
        const auto done = writeLabels(file);
        if (done) m_acts->say(tr("%n page(s) of labels written to %1", nullptr, *done).arg(file));
        else Q_EMIT m_bench.refused(done.error());
    });
}

} // namespace interlude
