#pragma once
// The few building blocks that every tab is made of. Each sets its accessible name from its text.

#include "views/look/look.h"

#include <QFrame>
#include <QLabel>
#include <QPushButton>

class QVBoxLayout;

namespace interlude::look {

/// A quiet bordered surface with an optional title; `body()` takes the content.
class Panel : public QFrame {
    Q_OBJECT
public:
    explicit Panel(const QString& title = {}, QWidget* parent = nullptr);
    QVBoxLayout* body() const { return m_body; }
    void setTitle(const QString& title);
    /// Accent border (in hand) or alarm border (wrong now); colour never alone: the content says it in words.
    enum class Mark { None, InHand, Wrong };
    void setMark(Mark mark);

private:
    QLabel* m_title;
    QVBoxLayout* m_body;
};

/// A drawing of fixed size that follows the theme.
class IconView final : public QWidget {
    Q_OBJECT
public:
    explicit IconView(const QIcon& icon, int size, QWidget* parent = nullptr);

protected:
    void paintEvent(QPaintEvent*) override;

private:
    QIcon m_icon;
};

/// A label of one of the text roles, word-wrapped, selectable by mouse.
QLabel* label(Text role, const QString& text = {}, bool bold = false);
/// The same in the muted colour.
QLabel* mutedLabel(Text role, const QString& text = {});

/// Colours a label's text by name: muted, soft, alarm, good, danger, warning, caution, notice; empty = plain text.
void setTone(QLabel* label, const QString& tone);

/// The one action that a view is for.
QPushButton* primaryButton(const QString& text);
/// Any other action.
QPushButton* button(const QString& text);
/// A name as a button, a tick or a menu shows it: an & in it is an &, not the key of the letter after it.
QString shown(QString name);
/// An action without a border, for foot and header; still at least 24 px high.
QPushButton* quietButton(const QString& text);

/// Signal word, drawing and text of one caution, with a border in the signal's colour.
QWidget* cautionBox(const Caution& caution);
/// A finding in words, with severity as word and shape.
QWidget* findingRow(const Finding& finding);

/// Removes everything from a layout and deletes the widgets later.
void clear(class QLayout* layout);

} // namespace interlude::look
