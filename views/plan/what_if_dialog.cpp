#include "views/plan/what_if_dialog.h"

#include "views/asking/fields.h"
#include "views/asking/job_dialog.h"
#include "views/look/widgets.h"
#include "views/words/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QFormLayout>
#include <QLineEdit>
#include <QListWidget>
#include <QVBoxLayout>

#include <cmath>

namespace interlude {

using planning::WhatIf;

namespace {

Finding refuse(const QString& reason, const QString& remedy) {
    return {Severity::Refusal, QStringLiteral("what-if"), reason, remedy, {}, false};
}

/// "absence-3": the next that is free.
template <class Map> QString freeId(const QString& word, const Map& taken) {
    int n = static_cast<int>(taken.size()) + 1;
    while (taken.contains(QStringLiteral("%1-%2").arg(word).arg(n))) ++n;
    return QStringLiteral("%1-%2").arg(word).arg(n);
}

} // namespace

QString assumptionsText(const WhatIf& w) {
    QStringList parts;
    const auto add = [&](qsizetype n, const QString& one, const QString& many) {
        if (n > 0) parts << (n == 1 ? one : many.arg(n));
    };
    add(w.absences.size(), WhatIfDialog::tr("1 absence"), WhatIfDialog::tr("%1 absences"));
    add(w.downtimes.size(), WhatIfDialog::tr("1 downtime"), WhatIfDialog::tr("%1 downtimes"));
    add(w.rush.size(), WhatIfDialog::tr("1 rush job"), WhatIfDialog::tr("%1 rush jobs"));
    return parts.join(QStringLiteral(", "));
}

WhatIfDialog::WhatIfDialog(PlanDesk& desk, QWidget* parent)
    : AskDialog(tr("What if…"),
                tr("An assumption changes this draft alone, which then cannot be published. For the shop: it is entered in the "
                   "ledger and holds for everybody."),
                tr("Assume"), parent),
      m_desk(desk), m_known(new QListWidget), m_withdraw(look::button(tr("With&draw the chosen one"))) {
    setObjectName(QStringLiteral("whatIfDialog"));
    setMinimumWidth(72 * look::unit);
    const Bench& bench = desk.bench();
    const QTimeZone zone = bench.catalogue().fleet.zone;
    m_kind = addChoice(QStringLiteral("whatIfKind"), tr("What"),
                       {{tr("people are away"), QString::number(Absence)},
                        {tr("a printer is down"), QString::number(Downtime)},
                        {tr("a rush job comes"), QString::number(Rush)}});
    m_people = addLine(QStringLiteral("whatIfPeople"), tr("People away"), QStringLiteral("1"));
    m_printer = addChoice(QStringLiteral("whatIfPrinter"), tr("Printer"), fields::printerChoices(bench.catalogue()));
    m_from = addTime(QStringLiteral("whatIfFrom"), tr("From"), bench.now(), zone);
    m_to = addTime(QStringLiteral("whatIfTo"), tr("To"), bench.now() + std::chrono::hours(8), zone);
    m_real = addCheck(QStringLiteral("whatIfReal"), tr("For the shop: it is so, enter it"), false);
    m_why = addLine(QStringLiteral("whatIfWhy"), tr("Why"));
    m_known->setObjectName(QStringLiteral("whatIfKnown"));
    m_known->setAccessibleName(tr("What is assumed or entered already"));
    m_known->setMaximumHeight(16 * look::unit);
    m_withdraw->setObjectName(QStringLiteral("whatIfWithdraw"));
    auto* known = new QWidget;
    auto* column = new QVBoxLayout(known);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(m_known);
    column->addWidget(m_withdraw, 0, Qt::AlignLeft);
    addWidget(tr("Known"), known);
    connect(m_kind, &QComboBox::currentIndexChanged, this, &WhatIfDialog::arrange);
    connect(m_real, &QCheckBox::toggled, this, &WhatIfDialog::arrange);
    connect(m_known, &QListWidget::currentRowChanged, this, [this](int row) { m_withdraw->setEnabled(row >= 0); });
    connect(m_withdraw, &QPushButton::clicked, this, &WhatIfDialog::withdraw);
    setAct([this] { return enter(); });
    fillKnown();
    arrange();
    m_kind->setFocus();
}

WhatIfDialog::What WhatIfDialog::what() const {
    return static_cast<What>(m_kind->currentData().toString().toInt());
}

void WhatIfDialog::arrange() {
    const bool rush = what() == Rush;
    form()->setRowVisible(m_people, what() == Absence);
    form()->setRowVisible(m_printer, what() == Downtime);
    for (QWidget* w : {static_cast<QWidget*>(m_from), static_cast<QWidget*>(m_to), static_cast<QWidget*>(m_real)})
        form()->setRowVisible(w, !rush);
    form()->setRowVisible(m_why, !rush && m_real->isChecked());
    acceptButton()->setText(rush ? tr("Describe it…") : m_real->isChecked() ? tr("Enter for the shop") : tr("Assume"));
}

void WhatIfDialog::fillKnown() {
    m_known->clear();
    const Bench& bench = m_desk.bench();
    const auto add = [this](const QString& text, const QString& kind, const QVariant& id) {
        auto* item = new QListWidgetItem(text, m_known);
        item->setData(Qt::UserRole, kind);
        item->setData(Qt::UserRole + 1, id);
    };
    const auto span = [&](Instant from, std::optional<Instant> to) {
        return to ? tr("%1 to %2").arg(bench.longTime(from), bench.longTime(*to)) : tr("from %1 for good").arg(bench.longTime(from));
    };
    const auto name = [&](const PrinterId& id) { return bench.catalogue().printerName(id); };
    const WhatIf& w = m_desk.draft().whatIf();
    for (qsizetype i = 0; i < w.absences.size(); ++i)
        add(tr("assumed: %1 away, %2").arg(w.absences[i].people).arg(span(w.absences[i].from, w.absences[i].to)), QStringLiteral("absence"), i);
    for (qsizetype i = 0; i < w.downtimes.size(); ++i)
        add(tr("assumed: %1 down, %2").arg(name(w.downtimes[i].printer), span(w.downtimes[i].from, w.downtimes[i].to)), QStringLiteral("downtime"), i);
    for (qsizetype i = 0; i < w.rush.size(); ++i) add(tr("assumed: rush job %1 %2").arg(w.rush[i].id, w.rush[i].title), QStringLiteral("rush"), i);
    for (const PlannedAbsence& a : bench.shop().absences())
        if (a.to > bench.now())
            add(tr("entered: %1 away, %2 %3").arg(a.people).arg(span(a.from, a.to), a.why), QStringLiteral("shop-absence"), a.id);
    for (const PlannedDowntime& d : bench.shop().downtimes())
        if (d.to > bench.now())
            add(tr("entered: %1 down, %2 %3").arg(name(d.printer), span(d.from, d.to), d.why), QStringLiteral("shop-downtime"), d.id);
    form()->setRowVisible(m_known->parentWidget(), m_known->count() > 0);
    m_withdraw->setEnabled(m_known->currentRow() >= 0);
}

void WhatIfDialog::withdraw() {
    const QListWidgetItem* item = m_known->currentItem();
    if (!item) return;
    const QString kind = item->data(Qt::UserRole).toString(), text = item->text();
    const QVariant id = item->data(Qt::UserRole + 1);
    if (kind.startsWith(QStringLiteral("shop-"))) {
        const Happening act = kind == QStringLiteral("shop-absence") ? Happening(act::AbsenceWithdrawn{id.toString()})
                                                                      : Happening(act::DowntimeWithdrawn{id.toString()});
        const auto done = m_desk.bench().perform(act);
        Q_EMIT told(done ? tr("Withdrawn: %1").arg(text) : sentence(done.error()));
    } else {
        WhatIf w = m_desk.draft().whatIf();
        if (kind == QStringLiteral("absence")) w.absences.removeAt(id.toInt());
        else if (kind == QStringLiteral("downtime")) w.downtimes.removeAt(id.toInt());
        else w.rush.removeAt(id.toInt());
        m_desk.assume(w);
        Q_EMIT told(tr("Withdrawn: %1").arg(text));
    }
    fillKnown();
}

std::optional<Finding> WhatIfDialog::enter() {
    if (what() == Rush) {
        askRush();
        return {};
    }
    const QTimeZone zone = m_desk.bench().catalogue().fleet.zone;
    const Instant from = zoned(*m_from, zone), to = zoned(*m_to, zone);
    if (to <= from) return refuse(tr("It ends before it begins"), tr("a “To” after “From”"));
    if (to <= m_desk.bench().now()) return refuse(tr("It is over already"), tr("a “To” after now"));
    if (what() == Downtime) return enterDowntime(from, to);
    const auto people = words::readNumber(m_people->text());
    if (!people || *people < 1 || *people > 1000 || *people != std::floor(*people))
        return refuse(tr("“%1” people cannot be away").arg(m_people->text()), tr("a whole number from 1"));
    return enterAbsence(static_cast<int>(*people), from, to);
}

std::optional<Finding> WhatIfDialog::enterAbsence(int people, Instant from, Instant to) {
    if (m_real->isChecked()) {
        const PlannedAbsence a{freeId(QStringLiteral("absence"), m_desk.bench().shop().absences()), people, from, to, m_why->text().trimmed()};
        auto refused = findingOf(m_desk.bench().workbench().perform(act::AbsenceEntered{a}, m_desk.bench().who()));
        if (!refused) Q_EMIT told(tr("Entered for the shop: %1 away").arg(people));
        return refused;
    }
    WhatIf w = m_desk.draft().whatIf();
    w.absences.append(planning::Absence{from, to, people});
    m_desk.assume(w);
    Q_EMIT told(tr("Assumed: %1 away").arg(people));
    return {};
}

std::optional<Finding> WhatIfDialog::enterDowntime(Instant from, Instant to) {
    const PrinterId printer = m_printer->currentData().toString();
    if (m_real->isChecked()) {
        if (auto f = missingField(tr("Why"), m_why->text())) return f;
        const PlannedDowntime d{freeId(QStringLiteral("downtime"), m_desk.bench().shop().downtimes()), printer, from, to, m_why->text().trimmed()};
        auto refused = findingOf(m_desk.bench().workbench().perform(act::DowntimePlanned{d}, m_desk.bench().who()));
        if (!refused) Q_EMIT told(tr("Entered for the shop: %1 down").arg(m_printer->currentText()));
        return refused;
    }
    WhatIf w = m_desk.draft().whatIf();
    w.downtimes.append(planning::Downtime{printer, from, to});
    m_desk.assume(w);
    Q_EMIT told(tr("Assumed: %1 down").arg(m_printer->currentText()));
    return {};
}

void WhatIfDialog::askRush() {
    // This form is closing: the next one stands on what it stood on.
    auto* form = new JobDialog(m_desk.bench(), {}, parentWidget());
    form->setWindowTitle(tr("What if: a rush job"));
    PlanDesk* desk = &m_desk;
    form->setTaker([desk](const Job& job) -> std::optional<Finding> {
        WhatIf w = desk->draft().whatIf();
        if (std::any_of(w.rush.begin(), w.rush.end(), [&](const Job& j) { return j.id == job.id; }))
            return refuse(tr("Job %1 is assumed already").arg(job.id), tr("take another id"));
        w.rush.append(job);
        desk->assume(w);
        return {};
    });
    form->open();
}

} // namespace interlude
