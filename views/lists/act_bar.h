#pragma once
// The acts of a page as buttons, and a line that says what came of the last one. An act that cannot be done now is
// disabled and says why (nobody signed in, nothing chosen).

#include <QWidget>

#include <functional>

class QHBoxLayout;
class QLabel;
class QPushButton;

namespace interlude::lists {

class ActBar final : public QWidget {
    Q_OBJECT
public:
    explicit ActBar(const QString& name, QWidget* parent = nullptr);

    enum class Needs {
        Nothing,    ///< always possible (labels, printing)
        Person,     ///< somebody signed in
        PersonAndRow///< and a row chosen in the list
    };
    /// `text` has its mnemonic; the first act is the primary one.
    QPushButton* add(const QString& text, Needs needs, std::function<void()> act);
    /// Says which acts are possible now; `row` names what is chosen, empty = nothing.
    void update(bool signedIn, const QString& row);
    /// What came of the last act, in words.
    void say(const QString& text);
    QString said() const;

private:
    struct Entry {
        QPushButton* button;
        Needs needs;
    };
    QHBoxLayout* m_row;
    QLabel* m_note;
    QList<Entry> m_entries;
    QString m_said;
    bool m_signedIn = false;
};

} // namespace interlude::lists
