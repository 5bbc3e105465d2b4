#pragma once
// A small form that asks what one act needs to know: captions, fields, the act's button. Opened with `open()`, never
// blocking; deletes itself when closed. Fit for a scanner: Enter goes on to the next field and, on the last one,
// performs the act; on a button it presses that one; Ctrl+Enter performs the act from anywhere. On a refusal nothing has happened and everything typed stays.

#include "views/bench/bench.h"

#include <QDialog>

#include <functional>
#include <optional>

class QCheckBox;
class QComboBox;
class QDateTimeEdit;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QPushButton;
class QVBoxLayout;

namespace interlude {

namespace look {
class Room;
}

/// One entry of a choice: what is shown, what it stands for.
struct Choice {
    QString text, value;
};

class AskDialog : public QDialog {
    Q_OBJECT
public:
    /// `why` is a sentence above the fields and may be empty.
    AskDialog(const QString& title, const QString& why, const QString& acceptText, QWidget* parent);

    QLineEdit* addLine(const QString& name, const QString& caption, const QString& initial = {},
                       const QString& hint = {});
    QPlainTextEdit* addNote(const QString& name, const QString& caption);
    QComboBox* addChoice(const QString& name, const QString& caption, const QList<Choice>& choices,
                         const QString& initial = {});
    QCheckBox* addCheck(const QString& name, const QString& caption, bool initial);
    /// Local time of `zone`.
    QDateTimeEdit* addTime(const QString& name, const QString& caption, Instant initial, const QTimeZone& zone);
    /// Any other widget, in its row.
    void addWidget(const QString& caption, QWidget* widget);
    QFormLayout* form() const { return m_form; }
    QPushButton* acceptButton() const { return m_accept; }
    /// What is shown against the act now, one line each.
    QStringList objectionsShown() const { return m_shown; }

    /// Tried when the button is pressed; a finding keeps the dialog open and is shown.
    void setAct(std::function<std::optional<Finding>()> act) { m_act = std::move(act); }
    /// For an act that can be judged before it is done: what stands against it is shown at every change of a field, and
    /// the button waits until no refusal is left. A finding of rule `missing` is shown as a note: something still to be
    /// filled in is no mistake yet. Call after the fields are there: it checks at once.
    void setCheck(std::function<Findings()> check);
    void accept() override;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    void add(const QString& name, const QString& caption, QWidget* field);
    void watch(QWidget* field);
    void check();
    /// What stands against the times as they are typed.
    Findings unreadTimes() const;
    void fit();
    void showFindings(const Findings& findings);

    QFormLayout* m_form;
    look::Room* m_room; ///< of the fields
    QVBoxLayout* m_findings;
    QPushButton* m_accept;
    QList<QWidget*> m_fields; ///< those that Enter goes through, in order
    QStringList m_shown;
    std::function<std::optional<Finding>()> m_act;
    std::function<Findings()> m_check;
};

/// Shows `t` in a time editor and reads it back, both in `zone`.
void setZoned(QDateTimeEdit& edit, Instant t, const QTimeZone& zone);
Instant zoned(const QDateTimeEdit& edit, const QTimeZone& zone);

/// A finding for a field left empty: "Reason is missing".
std::optional<Finding> missingField(const QString& caption, const QString& value);

/// The finding of a refused act; empty when it was done.
template <typename T> std::optional<Finding> findingOf(const Outcome<T>& outcome) {
    return outcome ? std::nullopt : std::optional<Finding>(outcome.error());
}

} // namespace interlude
