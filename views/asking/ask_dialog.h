#pragma once
// A small form that asks what one act needs to know: captions, fields, the act's button. It stays open with the reason
// while the act is refused. Opened with `open()`, never blocking; deletes itself when closed.

#include "model/clock/instant.h"
#include "model/findings/finding.h"

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

namespace interlude {

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

    /// Tried when the button is pressed; a finding keeps the dialog open and is shown.
    void setAct(std::function<std::optional<Finding>()> act) { m_act = std::move(act); }
    void accept() override;

private:
    void add(const QString& name, const QString& caption, QWidget* field);
    QFormLayout* m_form;
    QLabel* m_problem;
    QPushButton* m_accept;
    std::function<std::optional<Finding>()> m_act;
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
