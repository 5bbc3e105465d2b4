#include "views/plan/print_dialog.h"

#include "views/look/widgets.h"
#include "views/plan/plan_words.h"

#include <QComboBox>
#include <QDateEdit>
#include <QFormLayout>
#include <QPrinter>

namespace interlude {

namespace {

PlanOnPaper onPaper(PlanDesk& desk) {
    const Bench& bench = desk.bench();
    QString which = PrintDialog::tr("draft, not published");
    if (!desk.draft().whatIf().isEmpty()) which = PrintDialog::tr("what if: rests on assumptions");
    else if (const auto& plan = bench.shop().plan(); plan && !desk.differs()) which = PrintDialog::tr("published %1 by %2").arg(bench.longTime(plan->at), plan->who);
    return {bench.shop(), desk.problem(), desk.timetable(), which, bench.now()};
}

} // namespace

PrintDialog::PrintDialog(PlanDesk& desk, Told told, QWidget* parent)
    : AskDialog(tr("Print the plan"), {}, tr("Go on…"), parent), m_desk(desk), m_told(std::move(told)), m_from(new QDateEdit) {
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
        const bool file = m_where->currentData().toString() == QStringLiteral("pdf");
        (file ? saveAsPdf : sendToPrinter)(parentWidget(), chosen(), m_told);
        return {};
    });
    m_what->setFocus();
}

bool PrintDialog::isDay() const {
    return m_what->currentData().toString() == QStringLiteral("day");
}

plan_paper::Wide PrintDialog::wide() const {
    using plan_paper::Wide;
    const QString chosen = m_paper->currentData().toString();
    if (chosen == QStringLiteral("A3")) return Wide::A3;
    if (chosen == QStringLiteral("Letter")) return Wide::Letter;
    return chosen == QStringLiteral("Tabloid") ? Wide::Tabloid : Wide::A4;
}

/// Of the plan as it is when it is put on paper; this dialog is gone then.
Document PrintDialog::chosen() const {
    PlanDesk* desk = &m_desk;
    const QDate from = m_from->date();
    if (isDay()) {
        const int printer = m_printer->currentData().toString().toInt();
        return {tr("Plan of the day"), QStringLiteral("plan-day.pdf"), uprightLayout(),
                [=](const QString& file) { return plan_paper::writeDayPdf(onPaper(*desk), printer, from, file); },
                [=](QPrinter& p) -> Outcome<int> { return plan_paper::daySheet(onPaper(*desk), printer, from, paper::sizeOf(p)).paint(p); }};
    }
    const plan_paper::Wide size = wide();
    return {tr("Plan of the week"), QStringLiteral("plan-week.pdf"), plan_paper::weekLayout(size),
            [=](const QString& file) { return plan_paper::writeWeekPdf(onPaper(*desk), from, size, file); },
            [=](QPrinter& p) -> Outcome<int> { return plan_paper::paintWeek(onPaper(*desk), from, p); }};
}

Outcome<int> PrintDialog::writePdf(const QString& file) const {
    return chosen().write(file);
}

} // namespace interlude
