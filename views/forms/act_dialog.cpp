#include "views/forms/act_dialog.h"

#include "views/look/widgets.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QFormLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollArea>

namespace interlude::forms {

ActDialog::ActDialog(Bench& bench, const QString& title, const QString& verb, QWidget* parent)
    : QDialog(parent), m_bench(bench), m_form(new QFormLayout), m_findings(new QVBoxLayout),
      m_confirm(look::primaryButton(verb)) {
    setWindowTitle(title);
    setAccessibleName(title);
    setAttribute(Qt::WA_DeleteOnClose);
    setMinimumWidth(60 * look::unit);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 3 * look::unit, 3 * look::unit, 2 * look::unit);
    all->setSpacing(2 * look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, title));
    m_form->setHorizontalSpacing(2 * look::unit);
    m_form->setVerticalSpacing(look::unit);
    m_form->setLabelAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_form->setFieldGrowthPolicy(QFormLayout::ExpandingFieldsGrow);
    all->addLayout(m_form);
    m_findings->setSpacing(0);
    all->addLayout(m_findings, 1);

    auto* buttons = new QHBoxLayout;
    auto* cancel = look::button(tr("Cancel"));
    m_confirm->setObjectName(QStringLiteral("confirm"));
    m_confirm->setDefault(true);
    buttons->addStretch(1);
    buttons->addWidget(cancel);
    buttons->addWidget(m_confirm);
    all->addLayout(buttons);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
    connect(m_confirm, &QPushButton::clicked, this, &ActDialog::perform);
}

void ActDialog::addRow(const QString& label, QWidget* field) {
    auto* said = look::label(look::Text::Body, label);
    said->setTextInteractionFlags(Qt::NoTextInteraction);
    said->setWordWrap(false);
    said->setBuddy(field);
    field->setAccessibleName(label);
    field->setObjectName(label);
    field->installEventFilter(this);
    m_form->addRow(said, field);
    m_fields.append(field);
}

QLineEdit* ActDialog::addText(const QString& label, const QString& hint, const QString& value) {
    auto* field = new QLineEdit(value);
    field->setPlaceholderText(hint);
    addRow(label, field);
    connect(field, &QLineEdit::textChanged, this, &ActDialog::check);
    return field;
}

QLineEdit* ActDialog::addNumber(const QString& label, const QString& hint) {
    auto* field = addText(label, hint);
    field->setInputMethodHints(Qt::ImhFormattedNumbersOnly);
    return field;
}

QComboBox* ActDialog::addChoice(const QString& label, const QList<Choice>& choices, const QString& chosen) {
    auto* field = new QComboBox;
    for (const Choice& c : choices) field->addItem(c.text, c.id);
    field->setMinimumContentsLength(12);
    field->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    if (const int at = field->findData(chosen); at >= 0) field->setCurrentIndex(at);
    addRow(label, field);
    connect(field, &QComboBox::currentIndexChanged, this, &ActDialog::check);
    return field;
}

QDateTimeEdit* ActDialog::addTime(const QString& label, Instant value) {
    // The field shows the shop's wall time; it is kept as plain date and time and read back in the shop's zone.
    const QDateTime local = toZone(value, m_bench.catalogue().fleet.zone);
    auto* field = new QDateTimeEdit(QDateTime(local.date(), QTime(local.time().hour(), local.time().minute()), Qt::UTC));
    field->setTimeSpec(Qt::UTC);
    field->setDisplayFormat(QStringLiteral("yyyy-MM-dd HH:mm"));
    addRow(label, field);
    connect(field, &QDateTimeEdit::dateTimeChanged, this, &ActDialog::check);
    return field;
}

Instant ActDialog::timeOf(const QDateTimeEdit* field) const {
    return instantOf(QDateTime(field->date(), field->time(), m_bench.catalogue().fleet.zone));
}

QCheckBox* ActDialog::addCheck(const QString& label, bool on) {
    auto* field = new QCheckBox(label);
    field->setChecked(on);
    field->setAccessibleName(label);
    field->setObjectName(label);
    field->installEventFilter(this);
    m_form->addRow(QString(), field);
    m_fields.append(field);
    connect(field, &QCheckBox::toggled, this, &ActDialog::check);
    return field;
}

void ActDialog::setAct(std::function<Outcome<Happening>()> build) {
    m_build = std::move(build);
    if (!m_fields.isEmpty()) m_fields.first()->setFocus();
    check();
}

void ActDialog::check() {
    if (!m_build) return;
    const auto act = m_build();
    Findings findings;
    if (act) {
        findings = m_bench.workbench().objections(*act, m_bench.who());
        m_confirm->setEnabled(refusalsIn(findings).isEmpty());
    } else {
        // Something still to be filled in is no mistake yet.
        Finding missing = act.error();
        if (missing.rule == QStringLiteral("missing")) missing.severity = Severity::Notice;
        findings = {missing};
        m_confirm->setEnabled(false);
    }
    showFindings(findings);
}

void ActDialog::showFindings(const Findings& findings) {
    QStringList lines;
    for (const Finding& f : findings) lines.append(sentence(f));
    m_confirm->setToolTip(m_confirm->isEnabled() ? QString() : lines.join(QLatin1Char('\n')));
    m_confirm->setAccessibleDescription(m_confirm->toolTip());
    if (lines == m_shown && m_findings->count() > 0) return;
    m_shown = lines;
    look::clear(m_findings);
    for (const Finding& f : findings) m_findings->addWidget(look::findingRow(f));
    m_findings->addStretch(1);
    // Grows with what is said, never shrinks under the hand.
    resize(width(), qMax(height(), sizeHint().height()));
}

void ActDialog::perform() {
    const auto act = m_build();
    if (!act) return;
    const auto done = m_bench.perform(*act);
    if (!done) {
        check();
        return;
    }
    Q_EMIT performed(*done);
    accept();
}

bool ActDialog::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        const auto at = m_fields.indexOf(qobject_cast<QWidget*>(watched));
        if ((key == Qt::Key_Return || key == Qt::Key_Enter) && at >= 0) {
            auto next = at + 1;
            while (next < m_fields.size() && !m_fields[next]->isEnabled()) ++next;
            if (next < m_fields.size()) {
                m_fields[next]->setFocus(Qt::TabFocusReason);
            } else if (m_confirm->isEnabled()) {
                m_confirm->click();
            }
            return true;
        }
    }
    return QDialog::eventFilter(watched, event);
}

} // namespace interlude::forms
