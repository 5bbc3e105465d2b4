#include "views/stock/stock_page.h"

#include "views/forms/act_bar.h"
#include "views/forms/label_file.h"
#include "views/lists/list_view.h"
#include "views/look/look.h"
#include "views/stock/spool_acts.h"
#include "views/stock/spool_panel.h"
#include "views/stock/spool_rows.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QVBoxLayout>

namespace interlude {

StockPage::StockPage(Bench& bench, QWidget* parent)
    : QWidget(parent), m_bench(bench), m_acts(new forms::ActBar(tr("Acts on spools"))),
      m_model(new lists::ListModel<SpoolRow>(spoolColumns(), [](const SpoolRow& r) { return r.spool.id; })),
      m_list(new lists::ListView(QStringLiteral("spools"), tr("Spools"), m_model)),
      m_withRetired(new QCheckBox(tr("Show retired"))), m_panel(new SpoolPanel(bench)) {
    m_withRetired->setAccessibleName(tr("Show retired spools"));
    m_list->addTool(m_withRetired);
    m_list->setEmptyText(tr("There is no spool yet. Receive the first one, or list spools in spools.yaml."));
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

    connect(m_withRetired, &QCheckBox::toggled, this, &StockPage::refresh);
    connect(&bench, &Bench::changed, this, &StockPage::refresh);
    connect(&bench, &Bench::signedIn, this, &StockPage::showChosen);
    // Exposure grows by the clock alone; a tenth of an hour is what is shown.
    connect(&bench, &Bench::ticked, this, [this, last = qint64(0)]() mutable {
        const qint64 minute = toMs(m_bench.now()) / 60000;
        if (minute == last) return;
        last = minute;
        refresh();
    });
    connect(m_list, &lists::ListView::currentKeyChanged, this, &StockPage::showChosen);
    connect(m_list, &lists::ListView::exported, this,
            [this](const QString& file, int rows) { m_acts->say(tr("%n row(s) written to %1", nullptr, rows).arg(file)); });
    connect(m_list, &lists::ListView::exportFailed, &bench, &Bench::refused);
    setFocusProxy(m_list);
    refresh();
}

void StockPage::buildActs() {
    using Needs = forms::ActBar::Needs;
    const auto chosen = [this] { return m_list->currentKey(); };
    m_acts->add(tr("&Receive"), Needs::Person, [this] { begin(spool_acts::receive(m_bench, this)); });
    m_acts->add(tr("&Weigh"), Needs::Person, [=, this] { begin(spool_acts::weigh(m_bench, chosen(), this)); });
    m_acts->add(tr("&Dry"), Needs::Person, [=, this] { begin(spool_acts::dry(m_bench, chosen(), this)); });
    m_acts->add(tr("Mo&ve"), Needs::Person, [=, this] { begin(spool_acts::move(m_bench, chosen(), this)); });
    m_acts->add(tr("&Load"), Needs::Person, [=, this] { begin(spool_acts::load(m_bench, chosen(), this)); });
    m_acts->add(tr("&Unload"), Needs::Person, [=, this] { begin(spool_acts::unload(m_bench, chosen(), this)); });
    m_acts->add(tr("Re&tire"), Needs::Person, [=, this] { begin(spool_acts::retire(m_bench, chosen(), this)); });
    m_acts->add(tr("La&bels"), Needs::Nothing, [this] { chooseLabelFile(); });
}

void StockPage::begin(forms::ActDialog* dialog) {
    connect(dialog, &forms::ActDialog::performed, this, [this](const Event& event) {
        const QString id = event.payload.value(QStringLiteral("spool")).isObject()
                               ? event.payload.value(QStringLiteral("spool")).toObject().value(QStringLiteral("id")).toString()
                               : event.payload.value(QStringLiteral("spool")).toString();
        m_list->select(id);
        m_acts->say(tr("Recorded at %1: %2.").arg(m_bench.shortTime(event.recordedAt), id));
    });
}

void StockPage::refresh() {
    m_model->setRows(spoolRows(m_bench, m_withRetired->isChecked()));
    showChosen();
}

void StockPage::showChosen() {
    m_acts->update(!m_bench.who().isEmpty(), m_list->currentKey());
    m_panel->showSpool(m_list->currentKey());
}

Outcome<int> StockPage::writeLabels(const QString& file) {
    return forms::writeLabels(m_bench, QStringLiteral("spools"), m_list->labelKeys(), file);
}

void StockPage::chooseLabelFile() {
    forms::chooseLabelFile(this, QStringLiteral("spool-labels.pdf"), [this](const QString& file) {
        const auto done = writeLabels(file);
        if (done) m_acts->say(tr("%n page(s) of labels written to %1", nullptr, *done).arg(file));
        else Q_EMIT m_bench.refused(done.error());
    });
}

} // namespace interlude
