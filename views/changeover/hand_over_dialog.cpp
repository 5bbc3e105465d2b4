#include "views/changeover/hand_over_dialog.h"

#include <QCheckBox>
#include <QPlainTextEdit>

namespace interlude {

HandOverDialog::HandOverDialog(GuideDesk& desk, QWidget* parent)
    : AskDialog(tr("Pause or hand over"),
                tr("Countdowns run on. After a hand-over the incoming person confirms what is mounted before going on; "
                   "after more than a minute measured temperatures are taken again."),
                tr("Pause"), parent) {
    setObjectName(QStringLiteral("handOverDialog"));
    QPlainTextEdit* note = addNote(QStringLiteral("handOverNote"), tr("Note"));
    QCheckBox* over = addCheck(QStringLiteral("handOver"), tr("Hand over to another person"), false);
    connect(over, &QCheckBox::toggled, this,
            [this](bool on) { acceptButton()->setText(on ? tr("Hand over") : tr("Pause")); });
    const qint64 session = desk.number();
    setAct([=, &desk]() -> std::optional<Finding> {
        const QString text = note->toPlainText().trimmed();
        if (over->isChecked())
            if (auto f = missingField(tr("Note"), text)) return f;
        return findingOf(desk.bench().workbench().perform(act::SessionPaused{session, text, over->isChecked()},
                                                          desk.bench().who()));
    });
    note->setFocus();
}

} // namespace interlude
