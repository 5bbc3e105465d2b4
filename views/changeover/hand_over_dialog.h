#pragma once
// Pause or hand over: a note for whoever goes on.

#include "views/asking/ask_dialog.h"
#include "views/changeover/guide_desk.h"

namespace interlude {

class HandOverDialog final : public AskDialog {
    Q_OBJECT
public:
    HandOverDialog(GuideDesk& desk, QWidget* parent);
};

} // namespace interlude
