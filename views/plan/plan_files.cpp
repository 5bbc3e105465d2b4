// Files and paper of the plan: import, export, print.
#include "views/plan/plan_actions.h"

#include "views/bench/remembered.h"
#include "views/intake/import_dialog.h"
#include "views/plan/print_dialog.h"

#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QJsonDocument>
#include <QSaveFile>

namespace interlude {

void PlanActions::importJobs() {
    ImportDialog::choose(m_desk.bench(), EntryKind::Jobs, this, [this](const QString& said) { Q_EMIT told(said); });
}

void PlanActions::importFile(const QString& file) {
    auto* dialog = new ImportDialog(m_desk.bench(), EntryKind::Jobs, file, this);
    connect(dialog, &ImportDialog::imported, this, &PlanActions::told);
    dialog->open();
}

void PlanActions::exportPlan() {
    auto* dialog = new QFileDialog(this, tr("Export the plan"), documentsFile(QStringLiteral("plan.json")),
                                   tr("JSON, everything (*.json);;CSV, one line a job (*.csv);;Calendar, one event a changeover (*.ics)"));
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setDefaultSuffix(QStringLiteral("json"));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QFileDialog::filterSelected, dialog, [dialog](const QString& filter) {
        dialog->setDefaultSuffix(filter.section(QStringLiteral("*."), 1).left(filter.endsWith(QStringLiteral("json)")) ? 4 : 3));
    });
    connect(dialog, &QFileDialog::fileSelected, this, [this](const QString& file) {
        const auto done = exportTo(file);
        Q_EMIT told(done ? *done : sentence(done.error()));
    });
    dialog->open();
}

Outcome<QString> PlanActions::exportTo(const QString& file) {
    const QString suffix = QFileInfo(file).suffix().toLower();
    const planning::PlanReport report = m_desk.report();
    const Catalogue& catalogue = m_desk.bench().catalogue();
    QByteArray bytes;
    if (suffix == QStringLiteral("json")) bytes = QJsonDocument(planning::toJson(m_desk.problem(), report)).toJson();
    else if (suffix == QStringLiteral("csv")) bytes = planning::toCsv(m_desk.problem(), report, catalogue);
    else if (suffix == QStringLiteral("ics")) bytes = planning::toCalendar(m_desk.problem(), report, catalogue);
    else
        return refusal(QStringLiteral("plan-export"), tr("“%1” says no format").arg(QFileInfo(file).fileName()),
                       tr("end the name with .json, .csv or .ics"), file);
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly) || out.write(bytes) != bytes.size() || !out.commit())
        return refusal(QStringLiteral("plan-export"), tr("%1 cannot be written: %2").arg(file, out.errorString()),
                       tr("choose a folder where you may write"), file);
    return tr("Exported to %1").arg(file);
}

void PlanActions::print() {
    const Told told = [this](const Outcome<QString>& said) { Q_EMIT this->told(said ? *said : sentence(said.error())); };
    (new PrintDialog(m_desk, told, this))->open();
}

} // namespace interlude
