#pragma once
// A dialog for one act: a few fields, what stands against it shown live, one button. Scanner-friendly: the first field
// has the focus, Enter goes on to the next one and, at the end, performs the act. On a refusal nothing has happened and
// everything typed stays.

#include "views/bench/bench.h"

#include <QDialog>

class QCheckBox;
class QComboBox;
class QDateTimeEdit;
class QFormLayout;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace interlude::forms {

/// An entry of a choice: what is kept, and what is said.
struct Choice {
    QString id, text;
};

class ActDialog final : public QDialog {
    Q_OBJECT
public:
    /// `title` heads the dialog, `verb` is on the button.
    ActDialog(Bench& bench, const QString& title, const QString& verb, QWidget* parent);

    QLineEdit* addText(const QString& label, const QString& hint = {}, const QString& value = {});
    /// A number typed with point or comma; the unit stands in the label: "Gross weight (g)".
    QLineEdit* addNumber(const QString& label, const QString& hint = {});
    QComboBox* addChoice(const QString& label, const QList<Choice>& choices, const QString& chosen = {});
    /// In the shop's zone.
    QDateTimeEdit* addTime(const QString& label, Instant value);
    QCheckBox* addCheck(const QString& label, bool on = false);

    /// Builds the act from the fields; a finding says what is missing or cannot be read. Call last: it checks at once.
    void setAct(std::function<Outcome<Happening>()> build);

    QPushButton* confirmButton() const { return m_confirm; }
    /// What is shown against the act now, one line each.
    QStringList objectionsShown() const { return m_shown; }
    Instant timeOf(const QDateTimeEdit* field) const;

Q_SIGNALS:
    /// The act was recorded.
    void performed(const interlude::Event& event);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void addRow(const QString& label, QWidget* field);
    void check();
    void perform();
    void showFindings(const Findings& findings);

    Bench& m_bench;
    QFormLayout* m_form;
    QVBoxLayout* m_findings;
    QPushButton* m_confirm;
    QList<QWidget*> m_fields;
    QStringList m_shown;
    std::function<Outcome<Happening>()> m_build;
};

/// Readers for fields; a finding names the field when there is nothing in it or it cannot be read.
Outcome<QString> wantText(const QLineEdit* field, const QString& name);
/// At least `least`.
Outcome<double> wantNumber(const QLineEdit* field, const QString& name, double least = 0.0);
/// Empty field = empty value.
Outcome<std::optional<double>> maybeNumber(const QLineEdit* field, const QString& name, double least = 0.0);

/// The shop's places as choices, and its printers.
QList<Choice> placeChoices(const Catalogue& catalogue);
QList<Choice> printerChoices(const Catalogue& catalogue);

} // namespace interlude::forms
