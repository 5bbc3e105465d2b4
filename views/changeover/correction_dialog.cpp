#include "views/changeover/correction_dialog.h"

#include "views/words/words.h"

#include <QComboBox>
#include <QLineEdit>

namespace interlude {

namespace {

void addStep(QList<Correctable>& out, const PlannedStep& planned, const StepProgress& p) {
    const auto add = [&](const QString& field, const QString& original) {
        out.append({p.event, planned.step.title, field, original});
    };
    const act::StepConfirmed& c = p.confirmed;
    for (qsizetype i = 0; i < c.scans.size(); ++i)
        add(i < planned.step.confirm.scans.size() ? words::scanCaption(planned.step.confirm.scans.at(i).target)
                                                  : CorrectionDialog::tr("Scan"),
            c.scans.at(i).value);
    for (qsizetype i = 0; i < c.answers.size(); ++i)
        add(planned.step.confirm.answers.value(i).question,
            c.answers.at(i).yes ? CorrectionDialog::tr("Yes") : CorrectionDialog::tr("No"));
    for (const act::ReadingDone& r : c.readings)
        add(r.name, QStringLiteral("%1 %2").arg(words::number(static_cast<double>(r.thousandths) / 1000.0), r.unit)
                        .trimmed());
    if (c.measured) add(CorrectionDialog::tr("Measured temperature"), words::celsius(*c.measured));
    if (c.useSoFar) add(CorrectionDialog::tr("Use so far"), words::runVolume(*c.useSoFar));
    if (p.ended) add(CorrectionDialog::tr("Time"), iso(*p.ended));
    add(CorrectionDialog::tr("Note"), c.note);
}

} // namespace

QList<Correctable> correctables(const SessionState& s) {
    QList<Correctable> out;
    for (qsizetype i = s.confirmedOrder.size() - 1; i >= 0; --i)
        if (const PlannedStep* planned = s.changeover.step(s.confirmedOrder.at(i)))
            addStep(out, *planned, s.progress(planned->step.id));
    for (Correctable& c : out)
        for (const Correction& earlier : s.corrections)
            if (earlier.what.event == c.event && earlier.what.field == c.field) c.original = earlier.what.corrected;
    return out;
}

CorrectionDialog::CorrectionDialog(Bench& bench, qint64 session, QWidget* parent)
    : AskDialog(tr("Correct something earlier"),
                tr("The original stays in the ledger; the record prints the correction beside it."), tr("Correct"),
                parent) {
    setObjectName(QStringLiteral("correctionDialog"));
    const SessionState* s = bench.shop().session(session);
    const QList<Correctable> all = s ? correctables(*s) : QList<Correctable>();
    QList<Choice> choices;
    for (const Correctable& c : all)
        choices.append({QStringLiteral("%1 · %2: %3").arg(c.step, c.field, c.original), QString()});
    QComboBox* what = addChoice(QStringLiteral("correctionWhat"), tr("What"), choices);
    QLineEdit* original = addLine(QStringLiteral("correctionOriginal"), tr("Recorded"));
    original->setReadOnly(true);
    QLineEdit* corrected = addLine(QStringLiteral("correctionValue"), tr("Right is"));
    QLineEdit* reason = addLine(QStringLiteral("correctionReason"), tr("Reason"));
    const auto showOriginal = [=] { original->setText(all.value(what->currentIndex()).original); };
    connect(what, &QComboBox::currentIndexChanged, this, showOriginal);
    showOriginal();
    acceptButton()->setEnabled(!all.isEmpty());
    setAct([=, &bench]() -> std::optional<Finding> {
        if (auto f = missingField(tr("Right is"), corrected->text())) return f;
        if (auto f = missingField(tr("Reason"), reason->text())) return f;
        const Correctable& c = all.at(what->currentIndex());
        return findingOf(bench.workbench().perform(act::Corrected{session, c.event, c.field, c.original,
                                                                  corrected->text().trimmed(),
                                                                  reason->text().trimmed()},
                                                   bench.who()));
    });
    corrected->setFocus();
}

} // namespace interlude
