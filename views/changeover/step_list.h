#pragma once
// All steps of the session with state and minutes under their group headings. The state is a shape and a word, the step
// in hand stands out; choosing one that may go now shows it in the middle.

#include "model/session/guide.h"

#include <QListWidget>

namespace interlude {

class StepList final : public QListWidget {
    Q_OBJECT
public:
    explicit StepList(QWidget* parent = nullptr);
    /// `shown` is the step in the middle.
    void show(const Guide& guide, const StepId& shown);

Q_SIGNALS:
    void chosen(const QString& step);

private:
    void rebuild(const Guide& guide);
    QStringList m_ids; ///< of the rows; empty = a heading
};

/// The shape before a step's title, and the word that a screen reader says for it.
QString markShape(StepMark mark, bool handsOn);
QString markWord(StepMark mark);

} // namespace interlude
