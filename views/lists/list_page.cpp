#include "views/lists/list_page.h"

#include "views/asking/act_dialog.h"
#include "views/asking/on_paper.h"
#include "views/bench/remembered.h"
#include "views/lists/act_bar.h"
#include "views/lists/fact_panel.h"
#include "views/lists/list_view.h"
#include "views/words/counted.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QScopedValueRollback>
#include <QVBoxLayout>

namespace interlude::lists {

namespace {
constexpr int panelWidth = 40 * look::unit;
/// From here on the details stand beside the list without cutting its columns.
constexpr int roomForDetails = 200 * look::unit;
} // namespace

ListPage::ListPage(Bench& bench, const Words& words, ListTable* model, FactPanel* panel, QWidget* parent)
    : QWidget(parent), m_bench(bench), m_kind(words.kind), m_acts(new ActBar(words.acts)),
      m_list(new ListView(words.kind, words.title, model)), m_withRetired(new QCheckBox(tr("Show retired"))),
      m_details(new QCheckBox(tr("Details"))), m_panel(panel) {
    setAccessibleName(words.title);
    m_withRetired->setAccessibleName(words.retired);
    m_details->setAccessibleName(tr("Details of the chosen row"));
    m_list->addTool(m_withRetired);
    m_list->addTool(m_details);
    m_list->setEmptyText(words.empty);
    m_list->setFirstSort(0, Qt::AscendingOrder);
    m_list->rememberFilter();
    m_withRetired->setChecked(remembered()->value(retiredKey()).toBool());
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(2 * look::unit, 2 * look::unit, 2 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addWidget(m_acts);
    listen();
}

void ListPage::focusInEvent(QFocusEvent* event) {
    m_list->setFocus(event->reason());
}

void ListPage::complete() {
    auto* row = new QHBoxLayout;
    row->setSpacing(2 * look::unit);
    row->addWidget(m_list, 1);
    m_panel->setFixedWidth(panelWidth);
    row->addWidget(m_panel);
    qobject_cast<QVBoxLayout*>(layout())->addLayout(row, 1);
    const auto kept = remembered()->value(detailsKey());
    if (kept.isValid()) m_wantsDetails = kept.toBool();
    showDetails();
    refresh();
}

QString ListPage::detailsKey() const {
    return QStringLiteral("lists/%1/details").arg(m_kind);
}

QString ListPage::retiredKey() const {
    return QStringLiteral("lists/%1/retired").arg(m_kind);
}

void ListPage::showDetails() {
    const bool shown = m_wantsDetails.value_or(width() >= roomForDetails);
    const QSignalBlocker quiet(m_details);
    m_details->setChecked(shown);
    if (shown == !m_panel->isHidden()) return;
    m_panel->setVisible(shown);
    showChosen();
}

void ListPage::wantDetails(bool shown) {
    m_wantsDetails = shown;
    remembered()->setValue(detailsKey(), shown);
    showDetails();
}

void ListPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    showDetails();
}

void ListPage::listen() {
    connect(m_withRetired, &QCheckBox::toggled, this, [this](bool shown) {
        remembered()->setValue(retiredKey(), shown);
        refresh();
    });
    connect(m_details, &QCheckBox::toggled, this, &ListPage::wantDetails);
    connect(m_list, &ListView::activated, this, [this] { wantDetails(true); });
    connect(&m_bench, &Bench::changed, this, &ListPage::refresh);
    connect(&m_bench, &Bench::signedIn, this, [this] {
        m_stale = m_stale || !isVisible();
        showChosen();
    });
    connect(m_list, &ListView::currentKeyChanged, this, &ListPage::showChosen);
    connect(m_list, &ListView::exported, this,
            [this](const QString& file, int rows) { m_acts->say(tr("%1 written to %2").arg(words::rows(rows), file)); });
    connect(m_list, &ListView::exportFailed, &m_bench, &Bench::refused);
}

void ListPage::addAct(const QString& text, std::function<ActDialog*(const QString& chosen)> begin) {
    m_acts->add(text, ActBar::Needs::Person, [this, begin = std::move(begin)] { follow(begin(m_list->currentKey())); });
}

void ListPage::follow(ActDialog* dialog) {
    connect(dialog, &ActDialog::performed, this, [this, dialog](const Event& event) {
        m_list->select(dialog->id());
        m_acts->say(tr("Recorded at %1: %2.").arg(m_bench.shortTime(event.recordedAt), dialog->id()));
    });
}

void ListPage::refresh() {
    m_stale = !isVisible();
    if (m_stale) return;
    {
        const QScopedValueRollback filling(m_filling, true);
        fill(m_withRetired->isChecked());
    }
    showChosen();
}

void ListPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_stale) refresh();
}

void ListPage::showChosen() {
    if (m_filling || m_stale) return;
    m_acts->update(!m_bench.who().isEmpty(), m_list->currentKey());
    if (!m_panel->isHidden()) m_panel->showFacts(m_list->currentKey());
}

void ListPage::addLabels() {
    m_acts->add(tr("La&bels…"), ActBar::Needs::Nothing, [this] { putLabelsOnPaper(); });
}

void ListPage::addTool(const QString& text, std::function<void(const std::function<void(const QString&)>&)> begin) {
    m_acts->add(text, ActBar::Needs::Nothing,
                [this, begin = std::move(begin)] { begin([this](const QString& said) { m_acts->say(said); }); });
}

Outcome<QList<paper::Label>> ListPage::labels() {
    if (m_stale) fill(m_withRetired->isChecked());
    QHash<QString, paper::Label> known;
    for (const paper::Label& label : paper::labelsOf(m_bench.shop(), m_kind)) known.insert(label.id, label);
    QList<paper::Label> wanted;
    for (const QString& id : m_list->labelKeys())
        if (known.contains(id)) wanted.append(known.value(id));
    if (!wanted.isEmpty()) return wanted;
    return refusal(QStringLiteral("labels-none"), tr("There is nothing to print labels of"),
                   tr("choose rows in the list, or clear its filter"));
}

Outcome<int> ListPage::writeLabels(const QString& file) {
    return labels().and_then([&](const QList<paper::Label>& l) { return paper::writeLabelsPdf(l, file); });
}

Outcome<int> ListPage::printLabels(QPrinter& printer) {
    return labels().map([&](const QList<paper::Label>& l) { return paper::paintLabels(l, printer); });
}

void ListPage::putLabelsOnPaper() {
    putOnPaper(this,
               {tr("Labels"), QStringLiteral("%1-labels.pdf").arg(m_kind), uprightLayout(),
                [this](const QString& file) { return writeLabels(file); }, [this](QPrinter& printer) { return printLabels(printer); }},
               [this](const Outcome<QString>& said) {
                   if (said) m_acts->say(*said);
                   else Q_EMIT m_bench.refused(said.error());
               });
}

} // namespace interlude::lists
