#include "views/asking/correction_dialog.h"

#include "model/records/record.h"
#include "views/words/words.h"

#include <QComboBox>
#include <QLineEdit>

namespace interlude {

namespace {

/// A number gets the unit of what it corrects, and the same decimal point: "0,23" beside "0.26 mm" is 0.23 mm.
QString likeRecorded(const QString& original, const QString& corrected) {
    const qsizetype space = original.indexOf(QLatin1Char(' '));
    if (space < 0 || !words::readNumber(original.left(space))) return corrected;
    const QString unit = original.mid(space + 1);
    const auto value = words::readNumber(corrected, unit);
    return value ? QStringLiteral("%1 %2").arg(words::number(*value), unit) : corrected;
}

} // namespace

CorrectionDialog::CorrectionDialog(Bench& bench, qint64 session, QWidget* parent)
    : AskDialog(tr("Correct something earlier"),
                tr("The original stays in the ledger; the record prints the correction beside it."), tr("Correct"),
                parent) {
    setObjectName(QStringLiteral("correctionDialog"));
    const SessionState* s = bench.shop().session(session);
    const QList<Correctable> all = s ? correctablesOf(recordOf(bench.shop(), *s, bench.now())) : QList<Correctable>();
    QList<Choice> choices;
    for (const Correctable& c : all)
        choices.append({QStringLiteral("%1 · %2: %3").arg(c.step, c.label, c.value), QString()});
    QComboBox* what = addChoice(QStringLiteral("correctionWhat"), tr("What"), choices);
    QLineEdit* original = addLine(QStringLiteral("correctionOriginal"), tr("Recorded"));
    original->setReadOnly(true);
    QLineEdit* corrected = addLine(QStringLiteral("correctionValue"), tr("Right is"));
    QLineEdit* reason = addLine(QStringLiteral("correctionReason"), tr("Reason"));
    const auto showOriginal = [=] { original->setText(all.value(what->currentIndex()).value); };
    connect(what, &QComboBox::currentIndexChanged, this, showOriginal);
    showOriginal();
    acceptButton()->setEnabled(!all.isEmpty());
    setAct([=, &bench]() -> std::optional<Finding> {
        if (auto f = missingField(tr("Right is"), corrected->text())) return f;
        if (auto f = missingField(tr("Reason"), reason->text())) return f;
        const Correctable& c = all.at(what->currentIndex());
        return findingOf(bench.workbench().perform(act::Corrected{session, c.event, c.field, c.value,
                                                                  likeRecorded(c.value, corrected->text().trimmed()),
                                                                  reason->text().trimmed()},
                                                   bench.who()));
    });
    corrected->setFocus();
}

} // namespace interlude
