#pragma once
// A refusal, or what is worth knowing, said without stopping the work: why, and what would be right. Esc or Close takes it away.

#include "model/findings/finding.h"

#include <QFrame>

class QLabel;
class QPushButton;

namespace interlude {

class MessageBar final : public QFrame {
    Q_OBJECT
public:
    explicit MessageBar(QWidget* parent = nullptr);
    void showFinding(const Finding& finding);
    void dismiss();
    QString text() const;

private:
    QLabel* m_reason;
    QLabel* m_remedy;
    QPushButton* m_close;
};

} // namespace interlude
