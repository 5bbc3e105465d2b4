#include "views/plan/print_dialog.h"

#include "views/bench/remembered.h"
#include "views/look/widgets.h"
#include "views/plan/plan_words.h"
#include "views/words/counted.h"

#include <QComboBox>
#include <QDateEdit>
#include <QFileDialog>
#include <QFormLayout>
#include <QPrintDialog>
#include <QPrinter>

namespace interlude {

PrintDialog::PrintDialog(PlanDesk& desk, QWidget* parent)
    : AskDialog(tr("Print the plan"), {}, tr("Go on…"), parent), m_desk(desk), m_from(new QDateEdit) {
    setObjectName(QStringLiteral("printPlanDialog"));
    m_what = addChoice(QStringLiteral("printWhat"), tr("What"),
                       {{tr("the week of all printers"), QStringLiteral("week")}, {tr("the day of one printer"), QStringLiteral("day")}});
    QList<Choice> printers;
    for (std::size_t p = 0; p < desk.problem().problem.printers.size(); ++p)
        printers.append({plan_words::printer(desk, static_cast<int>(p)), QString::number(p)});
    m_printer = addChoice(QStringLiteral("printPrinter"), tr("Printer"), printers);
    m_paper = addChoice(QStringLiteral("printPaper"), tr("Paper"), {{tr("A4, landscape"), QStringLiteral("A4")}, {tr("A3, landscape"), QStringLiteral("A3")},
                                                                         {tr("Letter, landscape"), QStringLiteral("Letter")}, {tr("Tabloid, landscape"), QStringLiteral("Tabloid")}},
                        paper::usualSize() == paper::Size::Letter ? QStringLiteral("Letter") : QStringLiteral("A4"));
    m_where = addChoice(QStringLiteral("printWhere"), tr("Where to"), {{tr("a PDF file"), QStringLiteral("pdf")}, {tr("a printer"), QStringLiteral("printer")}});
    m_from->setObjectName(QStringLiteral("printFrom"));
    m_from->setAccessibleName(tr("First day"));
    m_from->setDisplayFormat(QStringLiteral("ddd yyyy-MM-dd"));
    m_from->setCalendarPopup(true);
    m_from->setDate(toZone(desk.bench().now(), desk.bench().catalogue().fleet.zone).date());
    addWidget(tr("First day"), m_from);
    const auto arrange = [this] {
        form()->setRowVisible(m_printer, isDay());
        form()->setRowVisible(m_paper, !isDay());
    };
    connect(m_what, &QComboBox::currentIndexChanged, this, arrange);
    arrange();
    setAct([this]() -> std::optional<Finding> {
        goOn();
        return {};
    });
    m_what->setFocus();
}

bool PrintDialog::isDay() const {
    return m_what->currentData().toString() == QStringLiteral("day");
}

PlanOnPaper PrintDialog::onPaper() const {
    const Bench& bench = m_desk.bench();
    QString which = tr("draft, not published");
    if (!m_desk.draft().whatIf().isEmpty()) which = tr("what if: rests on assumptions");
    else if (const auto& plan = bench.shop().plan(); plan && !m_desk.differs()) which = tr("published %1 by %2").arg(bench.longTime(plan->at), plan->who);
    return {bench.shop(), m_desk.problem(), m_desk.timetable(), which, bench.now()};
}

plan_paper::Wide PrintDialog::wide() const {
    using plan_paper::Wide;
    const QString chosen = m_paper->currentData().toString();
    if (chosen == QStringLiteral("A3")) return Wide::A3;
    if (chosen == QStringLiteral("Letter")) return Wide::Letter;
    return chosen == QStringLiteral("Tabloid") ? Wide::Tabloid : Wide::A4;
}

Outcome<int> PrintDialog::writePdf(const QString& file) const {
    const PlanOnPaper plan = onPaper();
    if (isDay()) return plan_paper::writeDayPdf(plan, m_printer->currentData().toString().toInt(), m_from->date(), file);
    return plan_paper::writeWeekPdf(plan, m_from->date(), wide(), file);
}

void PrintDialog::goOn() {
    if (m_where->currentData().toString() == QStringLiteral("pdf")) askFile(parentWidget());
    else askPrinter(parentWidget());
}

void PrintDialog::askFile(QWidget* parent) {
    const QString file = QFileDialog::getSaveFileName(parent, tr("Save the plan"), documentsFile(isDay() ? QStringLiteral("plan-day.pdf") : QStringLiteral("plan-week.pdf")), tr("PDF (*.pdf)"));
    if (file.isEmpty()) return;
    const auto pages = writePdf(file);
    Q_EMIT told(pages ? tr("%1: %2").arg(file, words::pages(*pages)) : sentence(pages.error()));
}

void PrintDialog::askPrinter(QWidget* parent) {
    QPrinter printer(QPrinter::HighResolution);
    if (isDay()) printer.setPageLayout(QPageLayout(paper::pageSize(paper::usualSize()), QPageLayout::Portrait, QMarginsF(0, 0, 0, 0), QPageLayout::Point));
    else printer.setPageLayout(plan_paper::weekLayout(wide()));
    printer.setFullPage(true);
    QPrintDialog dialog(&printer, parent);
    if (dialog.exec() != QDialog::Accepted) return;
    const PlanOnPaper plan = onPaper();
    const int pages = isDay() ? plan_paper::daySheet(plan, m_printer->currentData().toString().toInt(), m_from->date(), paper::sizeOf(printer)).paint(printer)
                              : plan_paper::paintWeek(plan, m_from->date(), printer);
    Q_EMIT told(pages > 0 ? tr("Printed: %1").arg(words::pages(pages)) : tr("The printer refused: choose another one, or print to a PDF file"));
}

} // namespace interlude
