#pragma once
// The question how large the screen is.

class QWidget;

namespace interlude {

class AskDialog;

/// How wide the screen under `parent` really is, for the wall view: what the screen says, a line to lay a ruler on, and a
/// field for what was measured. The dialog is open and deletes itself.
AskDialog* askScreenSize(QWidget* parent);

} // namespace interlude
