#pragma once
// One thing to scan: what it is, which id is expected, whether it has come and how.

#include "views/look/widgets.h"

#include "model/shop/happening.h"

namespace interlude {

class ScanSlot final : public QWidget {
    Q_OBJECT
public:
    /// `expected` is the id with a word about it: "N-118 · 0.6 hardened".
    ScanSlot(const QString& name, const QString& caption, const QString& expected, QWidget* parent = nullptr);
    /// `inHand`: this one is wanted next.
    void setState(const std::optional<act::ScanDone>& done, bool inHand);

private:
    QString m_caption;
    look::Panel* m_box;
    QLabel* m_expected;
    QLabel* m_state;
};

/// One question with its two buttons.
class AnswerSlot final : public QWidget {
    Q_OBJECT
public:
    AnswerSlot(const QString& name, const AnswerWanted& wanted, QWidget* parent = nullptr);
    void setState(const std::optional<bool>& answer, bool inHand);

Q_SIGNALS:
    void answered(bool yes);

private:
    AnswerWanted m_wanted;
    QPushButton* m_yes;
    QPushButton* m_no;
    QLabel* m_state;
};

} // namespace interlude
