#include "views/changeover/finish_panel.h"

#include "views/asking/ask_dialog.h"
#include "views/look/widgets.h"
#include "views/words/words.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLineEdit>
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

FinishPanel::FinishPanel(GuideDesk& desk, QWidget* parent) : QWidget(parent), m_desk(desk) {
    setObjectName(QStringLiteral("finishPanel"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2 * look::unit);
    column->addWidget(look::label(look::Text::StepTitle, tr("All steps are done")));
    m_summary = look::label(look::Text::Detail);
    m_summary->setObjectName(QStringLiteral("finishSummary"));
    column->addWidget(m_summary);
    m_disposition = new QComboBox;
    m_disposition->setObjectName(QStringLiteral("disposition"));
    m_disposition->setAccessibleName(tr("Disposition"));
    m_disposition->setPlaceholderText(tr("choose"));
    for (const QString& d : {tr("released for printing"), tr("released after a test part"), tr("held: see the note")})
        m_disposition->addItem(d);
    m_note = new QLineEdit;
    m_note->setObjectName(QStringLiteral("closingNote"));
    m_note->setAccessibleName(tr("Closing note"));
    auto* form = new QFormLayout;
    form->setSpacing(look::unit);
    form->addRow(tr("Disposition: may it print?"), m_disposition);
    form->addRow(tr("Note"), m_note);
    column->addLayout(form);
    connect(m_note, &QLineEdit::returnPressed, this, &FinishPanel::confirmAsked);
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
        m_disposition->setCurrentIndex(own.disposition);
        m_problems = own.problems;
    }
    // After a problem nobody releases a printer by pressing Enter once more.
    if (std::exchange(m_problems, f.problems) != f.problems) m_disposition->setCurrentIndex(f.problems > 0 ? -1 : 0);
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
    if (m_disposition->currentIndex() < 0) return missingField(tr("Disposition"), {});
    const bool held = m_disposition->currentIndex() == m_disposition->count() - 1;
    if (held)
        if (auto f = missingField(tr("Note"), m_note->text())) return f;
    auto done = m_desk.bench().workbench().perform(
        act::SessionFinished{m_desk.number(), m_disposition->currentText(), m_note->text().trimmed()},
        m_desk.bench().who(), m_desk.happenedAt());
    if (done) {
        m_begun.remove(m_session);
        m_session = 0;
        m_note->clear();
    }
    return findingOf(done);
}

FinishPanel::Begun FinishPanel::begun() const {
    return {m_note->text(), m_disposition->currentIndex(), m_problems};
}

} // namespace interlude
