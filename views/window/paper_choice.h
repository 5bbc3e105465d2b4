#pragma once
// The question which paper this PC prints on.

class QWidget;

namespace interlude {

class AskDialog;

/// Asks whether pages are A4 or Letter from now on, on this PC. The dialog is open and deletes itself.
AskDialog* askPaper(QWidget* parent);

} // namespace interlude
