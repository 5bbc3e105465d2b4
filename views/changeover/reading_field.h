#pragma once
// One value to give by hand: a measured temperature, a reading with its limits, a use so far. Shows what was given, its
// age, and in words when it lies outside its limits.

#include "views/look/widgets.h"

class QLineEdit;

namespace interlude {

class ReadingField final : public QWidget {
    Q_OBJECT
public:
    /// `unit` and `limits` are shown beside and under the field.
    ReadingField(const QString& name, const QString& caption, const QString& unit, const QString& limits,
                 QWidget* parent = nullptr);

    QLineEdit* line() const { return m_line; }
    /// What the model holds now: state in words; `wrong` marks it.
    void setState(const QString& state, bool wrong, bool inHand);
    /// The value taken in, shown when nobody is typing.
    void setValue(const QString& value);
    /// A button for the other allowed answer ("No history").
    QPushButton* addAlternative(const QString& name, const QString& text);

Q_SIGNALS:
    void given(const QString& text);
    /// Esc or Enter: the scan line may have the focus back.
    void left();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QLineEdit* m_line;
    QLabel* m_state;
    class QHBoxLayout* m_row;
};

} // namespace interlude
