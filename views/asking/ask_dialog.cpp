#include "views/asking/ask_dialog.h"

#include "views/asking/time_field.h"
#include "views/look/room.h"
#include "views/look/widgets.h"

#include <QAccessible>
#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QScreen>
#include <QVBoxLayout>

namespace interlude {

AskDialog::AskDialog(const QString& title, const QString& why, const QString& acceptText, QWidget* parent)
    : QDialog(parent), m_form(new QFormLayout), m_findings(new QVBoxLayout), m_accept(look::primaryButton(acceptText)) {
    setWindowTitle(title);
    setAccessibleName(title);
    setAttribute(Qt::WA_DeleteOnClose);
    setMinimumWidth(60 * look::unit);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    column->setSpacing(look::unit + look::unit / 2);
    column->addWidget(look::label(look::Text::PanelTitle, title, true));
    if (!why.isEmpty()) column->addWidget(look::mutedLabel(look::Text::Body, why));
    m_form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    m_form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    m_form->setLabelAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_form->setHorizontalSpacing(2 * look::unit);
    m_form->setVerticalSpacing(look::unit);
    auto* fields = new QWidget; // scrolled where the screen is too low for all of them
    fields->setLayout(m_form);
    m_form->setContentsMargins(0, 0, 0, 0);
    m_room = new look::Room(fields, look::Room::Across::Fits);
    column->addWidget(m_room);
    m_findings->setSpacing(0);
    column->addLayout(m_findings, 1);
    auto* row = new QHBoxLayout;
    auto* cancel = look::button(tr("Cancel"));
    cancel->setObjectName(QStringLiteral("askCancel"));
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
    auto* said = look::label(look::Text::Body, caption);
    said->setTextInteractionFlags(Qt::NoTextInteraction);
    said->setWordWrap(false);
    said->setBuddy(field);
    said->setMinimumHeight(look::buttonHeight - 4); // level with the field's text
    field->setObjectName(name);
    field->setAccessibleName(caption);
    m_form->addRow(said, field);
    watch(field);
}

void AskDialog::watch(QWidget* field) {
    if (auto* line = qobject_cast<QLineEdit*>(field)) connect(line, &QLineEdit::textChanged, this, &AskDialog::check);
    if (auto* box = qobject_cast<QComboBox*>(field)) connect(box, &QComboBox::currentIndexChanged, this, &AskDialog::check);
    if (auto* tick = qobject_cast<QCheckBox*>(field)) connect(tick, &QCheckBox::toggled, this, &AskDialog::check);
    if (auto* time = qobject_cast<TimeField*>(field)) {
        connect(time, &TimeField::dateTimeChanged, this, &AskDialog::check);
        connect(time, &TimeField::textTyped, this, &AskDialog::check);
    }
    if (auto* note = qobject_cast<QPlainTextEdit*>(field)) {
        connect(note, &QPlainTextEdit::textChanged, this, &AskDialog::check);
        return; // Enter is a new line in it
    }
    field->installEventFilter(this);
    m_fields.append(field);
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
    watch(field);
    return field;
}

QDateTimeEdit* AskDialog::addTime(const QString& name, const QString& caption, Instant initial,
                                  const QTimeZone& zone) {
    auto* field = new TimeField;
    field->setCalendarPopup(true);
    setZoned(*field, initial, zone);
    add(name, caption, field);
    return field;
}

void AskDialog::addWidget(const QString& caption, QWidget* widget) {
    m_form->addRow(caption, widget);
}

void AskDialog::setCheck(std::function<Findings()> check) {
    m_check = std::move(check);
    this->check();
}

void AskDialog::check() {
    if (!m_check) return;
    Findings findings = unreadTimes();
    if (findings.isEmpty()) findings = m_check();
    m_accept->setEnabled(refusalsIn(findings).isEmpty());
    for (Finding& f : findings)
        if (f.rule == QStringLiteral("missing")) f.severity = Severity::Notice;
    showFindings(findings);
}

Findings AskDialog::unreadTimes() const {
    Findings out;
    for (QWidget* field : m_fields)
        if (const auto* time = qobject_cast<TimeField*>(field); time && m_form->isRowVisible(field))
            if (const auto f = time->objection()) out.append(*f);
    return out;
}

void AskDialog::showFindings(const Findings& findings) {
    QStringList lines;
    for (const Finding& f : findings) lines.append(sentence(f));
    m_accept->setToolTip(m_accept->isEnabled() ? QString() : lines.join(QLatin1Char('\n')));
    m_accept->setAccessibleDescription(m_accept->toolTip());
    if (lines == m_shown) return;
    m_shown = lines;
    look::clear(m_findings);
    for (const Finding& f : findings) {
        QWidget* row = look::findingRow(f);
        m_findings->addWidget(row);
        row->show(); // what is not shown yet has no height for the layout
    }
    m_findings->addStretch(1);
    fit();
}

/// Grows with what is said, never shrinks under the hand, never grows beyond the screen.
void AskDialog::fit() {
    constexpr int title = 4 * look::unit; // that a window manager puts above it
    layout()->activate();
    const int wanted = layout()->hasHeightForWidth() ? layout()->totalHeightForWidth(width()) : sizeHint().height();
    const QRect free = screen()->availableGeometry().adjusted(0, title, 0, 0);
    resize(width(), qMax(height(), qMin(wanted, free.height())));
    if (isVisible() && geometry().bottom() > free.bottom()) move(x(), qMax(screen()->availableGeometry().top(), free.bottom() - height() - title));
}

void AskDialog::showEvent(QShowEvent* event) {
    QDialog::showEvent(event);
    m_room->setVisible(m_form->rowCount() > 0);
    fit();
}

void AskDialog::accept() {
    // An act must not be done with another time than the one that stands there.
    const Findings unread = unreadTimes();
    const std::optional<Finding> finding = !unread.isEmpty() ? unread.first() : m_act ? m_act() : std::nullopt;
    if (!finding) {
        QDialog::accept();
        return;
    }
    showFindings({*finding});
    QAccessibleEvent alert(m_accept, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
}

bool AskDialog::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::KeyPress) return QDialog::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    const auto at = m_fields.indexOf(qobject_cast<QWidget*>(watched));
    if (!enter || at < 0 || key->modifiers().testFlag(Qt::ControlModifier)) return QDialog::eventFilter(watched, event);
    const auto takesText = [](const QWidget* w) {
        const auto* line = qobject_cast<const QLineEdit*>(w);
        return w->isEnabled() && w->isVisible() && !(line && line->isReadOnly());
    };
    for (auto next = at + 1; next < m_fields.size(); ++next) {
        if (!takesText(m_fields[next])) continue;
        m_fields[next]->setFocus(Qt::TabFocusReason);
        m_room->ensureWidgetVisible(m_fields[next]);
        return true;
    }
    m_accept->click();
    return true;
}

void AskDialog::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    auto* pressed = qobject_cast<QPushButton*>(focusWidget());
    if (enter && event->modifiers().testFlag(Qt::ControlModifier)) m_accept->click();
    // Enter means the button that has the focus: on Cancel it must not do the act.
    else if (enter && pressed && pressed->isEnabled()) pressed->click();
    else QDialog::keyPressEvent(event);
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
