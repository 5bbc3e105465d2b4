#include "views/asking/job_dialog.h"

#include "views/asking/fields.h"
#include "views/asking/row_table.h"
#include "views/look/widgets.h"
#include "views/words/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QHeaderView>
#include <QLineEdit>
#include <QTableWidget>

namespace interlude {

namespace {
enum Column { Name, Part, Support, PartNozzle, SupportNozzle, PrintMinutes, PartCm3, SupportCm3, ChamberC, Columns };
} // namespace

JobDialog::JobDialog(Bench& bench, const JobId& id, QWidget* parent)
    : AskDialog(id.isEmpty() ? tr("Add a job") : tr("Change job %1").arg(id), {}, id.isEmpty() ? tr("Add") : tr("Change"),
                parent),
      m_bench(bench), m_new(id.isEmpty()) {
    setObjectName(QStringLiteral("jobDialog"));
    setMinimumWidth(120 * look::unit);
    if (const Job* j = bench.shop().job(id)) m_job = *j;
    m_id = addLine(QStringLiteral("jobId"), tr("Job id"), m_job.id);
    m_id->setReadOnly(!m_new);
    m_title = addLine(QStringLiteral("jobTitle"), tr("Title"), m_job.title);
    m_partNumber = addLine(QStringLiteral("jobPartNumber"), tr("Part number"), m_job.partNumber);
    m_revision = addLine(QStringLiteral("jobRevision"), tr("Revision"), m_job.revision);
    m_quantity = addLine(QStringLiteral("jobQuantity"), tr("Quantity"), QString::number(m_job.quantity));
    const QTimeZone zone = bench.catalogue().fleet.zone;
    const auto moment = [&](const QString& name, const QString& caption, const std::optional<Instant>& t,
                            QCheckBox*& has, QDateTimeEdit*& edit) {
        has = addCheck(name + QStringLiteral("Has"), tr("%1 stated").arg(caption), t.has_value());
        edit = addTime(name, caption, t.value_or(bench.now()), zone);
        edit->setEnabled(has->isChecked());
        connect(has, &QCheckBox::toggled, edit, &QWidget::setEnabled);
    };
    moment(QStringLiteral("jobRelease"), tr("Release"), m_job.release, m_hasRelease, m_release);
    moment(QStringLiteral("jobDue"), tr("Due"), m_job.due, m_hasDue, m_due);
    m_lateCost = addLine(QStringLiteral("jobLateCost"), tr("Late cost per hour (%1)").arg(bench.catalogue().fleet.currency),
                         fields::plainNumber(m_job.lateCostPerHour.units()));
    addVariants(m_job);
    setAct([this] { return keepJob(); });
    (m_new ? m_id : m_title)->setFocus();
}

void JobDialog::addVariants(const Job& job) {
    m_variants = new QTableWidget(0, Columns);
    m_variants->setObjectName(QStringLiteral("jobVariants"));
    m_variants->setAccessibleName(tr("Variants"));
    m_variants->setHorizontalHeaderLabels({tr("Variant"), tr("Part material"), tr("Support"), tr("Part nozzle"),
                                           tr("Support nozzle"), tr("Minutes"), tr("Part cm³"), tr("Support cm³"),
                                           tr("Chamber °C")});
    m_variants->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    m_variants->setMinimumHeight(22 * look::unit);
    m_variants->horizontalHeaderItem(PrintMinutes)->setToolTip(tr("On any printer: 840. By printer: bay-1: 54; bay-2: 61"));
    for (int i = 0; i < static_cast<int>(job.variants.size()); ++i) addVariantRow(variantText(job.variants.at(i)), i);
    if (job.variants.isEmpty()) {
        VariantText first;
        first.name = tr("standard");
        addVariantRow(first);
    }
    addWidget(tr("Variants"),
              rowTable(m_variants, {tr("Add a variant"), QStringLiteral("addVariant")},
                       {tr("Remove the variant"), QStringLiteral("removeVariant")}, [this] { addVariantRow({}); }, 1));
}

void JobDialog::addVariantRow(const VariantText& t, int kept) {
    const int row = m_variants->rowCount();
    m_variants->insertRow(row);
    const auto text = [&](int column, const QString& value) {
        m_variants->setItem(row, column, new QTableWidgetItem(value));
    };
    text(Name, t.name);
    m_variants->item(row, Name)->setData(Qt::UserRole, kept);
    text(PrintMinutes, t.minutes);
    text(PartCm3, t.partCm3);
    text(SupportCm3, t.supportCm3);
    text(ChamberC, t.chamberC);
    const auto choice = [&](int column, const QList<Choice>& choices, const QString& value) {
        auto* box = new QComboBox;
        box->setAccessibleName(m_variants->horizontalHeaderItem(column)->text());
        for (const Choice& c : choices) box->addItem(c.text, c.value);
        box->setCurrentIndex(std::max(0, box->findData(value)));
        m_variants->setCellWidget(row, column, box);
    };
    const Catalogue& c = m_bench.catalogue();
    QList<Choice> parts{{t.label.isEmpty() ? tr("choose") : tr("by setup %1").arg(t.label), {}}}, supports{{tr("none"), {}}}, partNozzles{{tr("choose"), {}}},
        supportNozzles{{tr("none"), {}}};
    for (const Material& m : c.materials)
        (m.role == Role::Part ? parts : supports).append({words::material(c, m.id), m.id});
    for (const NozzleType& n : c.nozzleTypes) {
        if (n.roles.contains(Role::Part)) partNozzles.append({n.name, n.id});
        if (n.roles.contains(Role::Support)) supportNozzles.append({n.name, n.id});
    }
    choice(Part, parts, t.part);
    choice(Support, supports, t.support);
    choice(PartNozzle, partNozzles, t.partNozzle);
    choice(SupportNozzle, supportNozzles, t.supportNozzle);
}

VariantText JobDialog::rowText(int row) const {
    const auto text = [&](int column) {
        const QTableWidgetItem* i = m_variants->item(row, column);
        return i ? i->text() : QString();
    };
    const auto chosen = [&](int column) {
        const auto* box = qobject_cast<QComboBox*>(m_variants->cellWidget(row, column));
        return box ? box->currentData().toString() : QString();
    };
    return {text(Name),         chosen(Part),     chosen(Support),  chosen(PartNozzle), chosen(SupportNozzle),
            text(PrintMinutes), text(PartCm3), text(SupportCm3), text(ChamberC), keptBy(row).setup.label};
}

/// What the form does not show of a variant stays, whatever name it is given.
Variant JobDialog::keptBy(int row) const {
    const QTableWidgetItem* name = m_variants->item(row, Name);
    return m_job.variants.value(name ? name->data(Qt::UserRole).toInt() : -1);
}

std::optional<Finding> JobDialog::keepJob() {
    Job job = m_job;
    job.id = m_id->text().trimmed();
    if (auto f = missingField(tr("Job id"), job.id)) return f;
    if (m_new && m_bench.shop().job(job.id))
        return Finding{Severity::Refusal, QStringLiteral("job"), tr("There is a job %1 already").arg(job.id),
                       tr("take another id"), job.id, false};
    job.title = m_title->text().trimmed();
    job.partNumber = m_partNumber->text().trimmed();
    job.revision = m_revision->text().trimmed();
    auto quantity = words::readNumber(m_quantity->text());
    if (!quantity || *quantity < 1 || *quantity > 1e6 || *quantity != std::floor(*quantity))
        return Finding{Severity::Refusal, QStringLiteral("job"), tr("Quantity “%1” cannot be").arg(m_quantity->text()),
                       tr("a whole number from 1"), {}, false};
    job.quantity = static_cast<int>(*quantity);
    auto cost = words::readNumber(m_lateCost->text());
    if (!cost || *cost < 0 || *cost > 1e7)
        return Finding{Severity::Refusal, QStringLiteral("job"), tr("Late cost “%1” cannot be").arg(m_lateCost->text()),
                       tr("a number from 0"), {}, false};
    job.lateCostPerHour = Money::fromUnits(*cost);
    const QTimeZone zone = m_bench.catalogue().fleet.zone;
    job.release = m_hasRelease->isChecked() ? std::optional(zoned(*m_release, zone)) : std::nullopt;
    job.due = m_hasDue->isChecked() ? std::optional(zoned(*m_due, zone)) : std::nullopt;
    if (job.release && job.due && *job.due < *job.release)
        return Finding{Severity::Refusal, QStringLiteral("job"), tr("It is due before it is released"),
                       tr("a due time after the release"), {}, false};
    job.variants.clear();
    for (int row = 0; row < m_variants->rowCount(); ++row) {
        auto v = variantFrom(rowText(row), keptBy(row), m_bench.catalogue());
        if (!v) return v.error();
        job.variants.append(*v);
    }
    if (m_take) return m_take(job);
    Workbench& w = m_bench.workbench();
    return m_new ? findingOf(w.perform(act::JobAdded{job}, m_bench.who()))
                 : findingOf(w.perform(act::JobChanged{job}, m_bench.who()));
}

AskDialog* askWithdraw(Bench& bench, const JobId& job, QWidget* parent) {
    auto* d = new AskDialog(JobDialog::tr("Withdraw job %1").arg(job), {}, JobDialog::tr("Withdraw"), parent);
    d->setObjectName(QStringLiteral("withdrawDialog"));
    QLineEdit* why = d->addLine(QStringLiteral("withdrawReason"), JobDialog::tr("Reason"));
    d->setAct([=, &bench]() -> std::optional<Finding> {
        if (auto f = missingField(JobDialog::tr("Reason"), why->text())) return f;
        return findingOf(bench.workbench().perform(act::JobWithdrawn{job, why->text().trimmed()}, bench.who()));
    });
    d->open();
    why->setFocus();
    return d;
}

} // namespace interlude
