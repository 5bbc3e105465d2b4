#pragma once
// The small forms of an open session: why, and who else stands for it. Each opens without blocking and performs its act.

#include "views/asking/ask_dialog.h"
#include "views/changeover/guide_desk.h"

namespace interlude {

/// People who can stand for an override beside the one signed in; empty in a shop of one.
QList<Choice> secondPeople(const Bench& bench);

/// Asks for a reason and a second person; `lift` is then called and may still refuse.
AskDialog* askOverride(Bench& bench, const QString& title, const Finding& finding,
                       std::function<std::optional<Finding>(const act::Override&)> lift, QWidget* parent);
/// How it is known that a wait is over which its prediction says is not.
AskDialog* askEarlyEnd(GuideDesk& desk, const Countdown& wait, QWidget* parent);
/// Reason for taking the last confirmation back.
AskDialog* askTakeBack(GuideDesk& desk, QWidget* parent);
/// Note of a problem; may stop the session in its mixed state.
AskDialog* askProblem(GuideDesk& desk, bool stop, QWidget* parent);
/// Skipping the step in hand; a mandatory one needs a reason and a second person.
AskDialog* askSkip(GuideDesk& desk, QWidget* parent);

} // namespace interlude
