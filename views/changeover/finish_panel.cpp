#include "views/changeover/finish_panel.h"

#include "views/asking/ask_dialog.h"
#include "views/look/flow.h"
#include "views/look/widgets.h"
#include "views/words/words.h"

#include <QButtonGroup>
#include <QFormLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QRadioButton>
#include <QVBoxLayout>

namespace interlude {

FinishFigures finishFigures(const SessionState& s) {
    FinishFigures f;
    f.plannedHandsOn = s.changeover.handsOn;
    f.plannedWaiting = s.changeover.waiting;
    f.overrides = static_cast<int>(s.overrides.size());
    f.corrections = static_cast<int>(s.corrections.size());
    f.problems = static_cast<int>(s.problems.size());
    Instant last = s.started;
    for (const StepProgress& p : s.steps) {
        if (p.state == StepState::Done) ++f.steps;
        if (p.state == StepState::Skipped) ++f.skipped;
        f.overrides += static_cast<int>(p.confirmed.overrides.size());
        if (p.ended) last = std::max(last, *p.ended);
    }
    f.took = last - s.started;
    for (const Interruption& i : s.interruptions)
        if (i.to) f.paused += *i.to - i.from;
    return f;
}

QStringList FinishPanel::dispositions() {
    return {tr("released for printing"), tr("released after a test part"), tr("held: see the note")};
}

FinishPanel::FinishPanel(GuideDesk& desk, QWidget* parent) : QWidget(parent), m_desk(desk) {
    setObjectName(QStringLiteral("finishPanel"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2 * look::unit);
    column->addWidget(look::label(look::Text::StepTitle, tr("All steps are done")));
    m_summary = look::label(look::Text::Detail);
    m_summary->setObjectName(QStringLiteral("finishSummary"));
    column->addWidget(m_summary);
    m_question = look::label(look::Text::Body, QString(), true);
    column->addWidget(m_question);
    m_disposition = new QButtonGroup(this);
    auto* row = new look::Flow;
    row->setSpacing(2 * look::unit);
    for (const QString& text : dispositions()) {
        auto* choice = new QRadioButton(text);
        const auto index = static_cast<int>(m_disposition->buttons().size());
        choice->setObjectName(QStringLiteral("disposition%1").arg(index));
        choice->setMinimumHeight(4 * look::unit);
        m_disposition->addButton(choice, index);
        row->add(choice);
    }
    column->addLayout(row);
    m_note = new QLineEdit;
    m_note->setObjectName(QStringLiteral("closingNote"));
    m_note->setAccessibleName(tr("Closing note"));
    auto* form = new QFormLayout;
    form->setSpacing(look::unit);
    form->addRow(tr("Note"), m_note);
    column->addLayout(form);
    column->addWidget(look::mutedLabel(look::Text::Body, tr("Finish, then the record opens for preview and print.")));
    column->addStretch();
}

void FinishPanel::refresh() {
    const SessionState* s = m_desk.session();
    if (!s) return;
    const FinishFigures f = finishFigures(*s);
    if (m_session != s->number) {
        if (m_session > 0) m_begun.insert(m_session, begun());
        m_session = s->number;
        const Begun own = m_begun.value(m_session);
        m_note->setText(own.note);
        setDisposition(own.disposition);
        m_problems = own.problems;
    }
    // Nobody releases a printer by pressing Enter once more; a problem noted meanwhile asks anew.
    if (std::exchange(m_problems, f.problems) != f.problems) setDisposition(-1);
    m_question->setText(s->doneStep(Effect::StartPrint) ? tr("Disposition: may the print go on?") : tr("Disposition: may it print?"));
    QStringList lines;
    lines << tr("%1 steps done in %2; planned %3 hands-on and %4 waiting")
                 .arg(f.steps)
                 .arg(words::stretch(f.took), words::minutes(f.plannedHandsOn), words::minutes(f.plannedWaiting));
    if (f.paused > Milliseconds(0)) lines << tr("Interrupted for %1").arg(words::stretch(f.paused));
    if (f.skipped > 0) lines << tr("Skipped: %1").arg(f.skipped);
    if (f.overrides > 0) lines << tr("Overrides: %1").arg(f.overrides);
    if (f.corrections > 0) lines << tr("Corrections: %1").arg(f.corrections);
    if (f.problems > 0) lines << tr("Problems noted: %1").arg(f.problems);
    m_summary->setText(lines.join(QLatin1Char('\n')));
}

std::optional<Finding> FinishPanel::finish() {
    if (disposition() < 0) {
        m_disposition->buttons().first()->setFocus(Qt::OtherFocusReason);
        return missingField(tr("Disposition"), {});
    }
    if (disposition() == static_cast<int>(dispositions().size()) - 1) // held
        if (auto f = missingField(tr("Note"), m_note->text())) return f;
    auto done = m_desk.bench().workbench().perform(
        act::SessionFinished{m_desk.number(), m_disposition->checkedButton()->text(), m_note->text().trimmed()},
        m_desk.bench().who(), m_desk.happenedAt());
    if (done) {
        m_begun.remove(m_session);
        m_session = 0;
        m_note->clear();
    }
    return findingOf(done);
}

void FinishPanel::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    // What was scanned into the note ends with Enter, too, and must not finish anything.
    if (enter && m_note->hasFocus()) Q_EMIT left();
    else if (enter) Q_EMIT confirmAsked();
    else QWidget::keyPressEvent(event);
}

FinishPanel::Begun FinishPanel::begun() const {
    return {m_note->text(), disposition(), m_problems};
}

int FinishPanel::disposition() const {
    return m_disposition->checkedId();
}

void FinishPanel::setDisposition(int index) {
    m_disposition->setExclusive(false); // none may be chosen
    for (QAbstractButton* b : m_disposition->buttons()) b->setChecked(m_disposition->id(b) == index);
    m_disposition->setExclusive(true);
}

} // namespace interlude
