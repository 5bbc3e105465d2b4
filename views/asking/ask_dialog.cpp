#include "views/asking/ask_dialog.h"

#include "views/look/widgets.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QFormLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QVBoxLayout>

namespace interlude {

AskDialog::AskDialog(const QString& title, const QString& why, const QString& acceptText, QWidget* parent)
    : QDialog(parent) {
    setWindowTitle(title);
    setAttribute(Qt::WA_DeleteOnClose);
    setMinimumWidth(60 * look::unit);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    column->setSpacing(look::unit + look::unit / 2);
    column->addWidget(look::label(look::Text::PanelTitle, title, true));
    if (!why.isEmpty()) column->addWidget(look::mutedLabel(look::Text::Body, why));
    m_form = new QFormLayout;
    m_form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    m_form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    m_form->setSpacing(look::unit);
    column->addLayout(m_form);
    m_problem = look::label(look::Text::Body, {}, true);
    m_problem->setObjectName(QStringLiteral("askProblem"));
    m_problem->hide();
    column->addWidget(m_problem);
    auto* row = new QHBoxLayout;
    auto* cancel = look::button(tr("Cancel"));
    cancel->setObjectName(QStringLiteral("askCancel"));
    cancel->setAutoDefault(false);
    m_accept = look::primaryButton(acceptText);
    m_accept->setObjectName(QStringLiteral("askAccept"));
    m_accept->setDefault(true);
    row->addStretch();
    row->addWidget(cancel);
    row->addWidget(m_accept);
    column->addLayout(row);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
    connect(m_accept, &QPushButton::clicked, this, &AskDialog::accept);
}

void AskDialog::add(const QString& name, const QString& caption, QWidget* field) {
    field->setObjectName(name);
    field->setAccessibleName(caption);
    m_form->addRow(caption, field);
}

QLineEdit* AskDialog::addLine(const QString& name, const QString& caption, const QString& initial,
                              const QString& hint) {
    auto* field = new QLineEdit(initial);
    field->setPlaceholderText(hint);
    add(name, caption, field);
    return field;
}

QPlainTextEdit* AskDialog::addNote(const QString& name, const QString& caption) {
    auto* field = new QPlainTextEdit;
    field->setTabChangesFocus(true);
    field->setFixedHeight(10 * look::unit);
    add(name, caption, field);
    return field;
}

QComboBox* AskDialog::addChoice(const QString& name, const QString& caption, const QList<Choice>& choices,
                                const QString& initial) {
    auto* field = new QComboBox;
    field->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    field->setMinimumContentsLength(20);
    for (const Choice& c : choices) field->addItem(c.text, c.value);
    const int at = field->findData(initial);
    if (at >= 0) field->setCurrentIndex(at);
    add(name, caption, field);
    return field;
}

QCheckBox* AskDialog::addCheck(const QString& name, const QString& caption, bool initial) {
    auto* field = new QCheckBox(caption);
    field->setObjectName(name);
    field->setAccessibleName(caption);
    field->setChecked(initial);
    m_form->addRow(QString(), field);
    return field;
}

QDateTimeEdit* AskDialog::addTime(const QString& name, const QString& caption, Instant initial,
                                  const QTimeZone& zone) {
    auto* field = new QDateTimeEdit;
    field->setDisplayFormat(QStringLiteral("ddd yyyy-MM-dd HH:mm"));
    setZoned(*field, initial, zone);
    add(name, caption, field);
    return field;
}

void AskDialog::addWidget(const QString& caption, QWidget* widget) {
    m_form->addRow(caption, widget);
}

void AskDialog::accept() {
    if (m_act)
        if (const std::optional<Finding> finding = m_act()) {
            m_problem->setText(QStringLiteral("▲ ") + sentence(*finding));
            m_problem->setAccessibleName(m_problem->text());
            look::setTone(m_problem, QStringLiteral("alarm"));
            m_problem->show();
            return;
        }
    QDialog::accept();
}

void setZoned(QDateTimeEdit& edit, Instant t, const QTimeZone& zone) {
    // The editor shows the zone's clock face without knowing of zones; UTC keeps it from shifting anything itself.
    const QDateTime local = toZone(t, zone);
    edit.setTimeSpec(Qt::UTC);
    edit.setDateTime(QDateTime(local.date(), QTime(local.time().hour(), local.time().minute(), local.time().second()),
                               Qt::UTC));
}

Instant zoned(const QDateTimeEdit& edit, const QTimeZone& zone) {
    const QDateTime face = edit.dateTime();
    return instantOf(QDateTime(face.date(), face.time(), zone));
}

std::optional<Finding> missingField(const QString& caption, const QString& value) {
    if (!value.trimmed().isEmpty()) return std::nullopt;
    return Finding{Severity::Refusal, QStringLiteral("missing"), QObject::tr("%1 is missing").arg(caption),
                   QObject::tr("fill it in"), caption, false};
}

} // namespace interlude
