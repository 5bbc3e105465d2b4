#pragma once
// Correct something earlier: a later, dated entry beside the original, which stays.

#include "views/asking/ask_dialog.h"
#include "views/bench/bench.h"

namespace interlude {

class CorrectionDialog final : public AskDialog {
    Q_OBJECT
public:
    CorrectionDialog(Bench& bench, qint64 session, QWidget* parent);
};

} // namespace interlude
