#pragma once
// Correct something earlier: a later, dated entry beside the original, which stays.

#include "views/asking/ask_dialog.h"
#include "views/bench/bench.h"

namespace interlude {

/// One recorded value that can be corrected: which event, which field, what it says now.
struct Correctable {
    qint64 event = 0;
    QString step, field, original;
};
/// Everything that was confirmed in a session, newest first; a value corrected earlier shows its latest correction.
QList<Correctable> correctables(const SessionState& session);

class CorrectionDialog final : public AskDialog {
    Q_OBJECT
public:
    CorrectionDialog(Bench& bench, qint64 session, QWidget* parent);
};

} // namespace interlude
