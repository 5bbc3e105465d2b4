#include "views/asking/time_field.h"

#include <QFocusEvent>
#include <QKeyEvent>
#include <QLineEdit>
#include <QRegularExpression>
#include <QSignalBlocker>
#include <QStyle>

namespace interlude {

namespace {

QRegularExpressionMatch matched(const QString& text) {
    static const QRegularExpression form(QStringLiteral(
        "^\\s*(?:\\p{L}+[.,]?\\s+)?(\\d{4})-(\\d{1,2})-(\\d{1,2})(?:\\s+|\\s*T\\s*)(\\d{1,2}):(\\d{2})\\s*$"));
    return form.match(text);
}

} // namespace

std::optional<QDateTime> readMoment(const QString& text) {
    const QRegularExpressionMatch m = matched(text);
    if (!m.hasMatch()) return {};
    const QDate date(m.captured(1).toInt(), m.captured(2).toInt(), m.captured(3).toInt());
    const QTime time(m.captured(4).toInt(), m.captured(5).toInt());
    if (!date.isValid() || !time.isValid() || date.year() < 2000 || date.year() > 2199) return {};
    return QDateTime(date, time, Qt::UTC);
}

TimeField::TimeField(QWidget* parent) : QDateTimeEdit(parent) {
    setDisplayFormat(QStringLiteral("ddd yyyy-MM-dd HH:mm"));
    setTimeSpec(Qt::UTC);
    // The base class would take each key for one part by itself, and give back the old moment for what it does not understand.
    disconnect(lineEdit(), nullptr, this, nullptr);
    lineEdit()->setValidator(nullptr);
    lineEdit()->installEventFilter(this);
    connect(lineEdit(), &QLineEdit::textChanged, this, &TimeField::take);
    connect(this, &QDateTimeEdit::dateTimeChanged, this, &TimeField::showTone);
}

bool TimeField::isUnreadable() const {
    return !readMoment(lineEdit()->text());
}

std::optional<Finding> TimeField::objection() const {
    if (!isEnabled() || !isUnreadable()) return {};
    return Finding{Severity::Refusal, QStringLiteral("time"),
                   tr("%1: “%2” is not a date and a time").arg(accessibleName(), lineEdit()->text().trimmed()),
                   tr("year-month-day hour:minute, such as %1").arg(dateTime().toString(QStringLiteral("yyyy-MM-dd HH:mm"))),
                   accessibleName(), false};
}

/// What was typed becomes the moment, and stays as it was typed as long as somebody types.
void TimeField::take() {
    if (const auto read = readMoment(lineEdit()->text());
        read && (read->date() != date() || read->time().hour() != time().hour() || read->time().minute() != time().minute())) {
        const QString typed = lineEdit()->text();
        const int cursor = lineEdit()->cursorPosition();
        setDateTime(*read);
        const QSignalBlocker quiet(lineEdit());
        lineEdit()->setText(typed);
        lineEdit()->setCursorPosition(cursor);
    }
    showTone();
    Q_EMIT textTyped();
}

void TimeField::showTone() {
    const auto said = objection();
    if (property("wrong").toBool() != said.has_value()) {
        setProperty("wrong", said.has_value());
        style()->polish(this);
    }
    setToolTip(said ? sentence(*said) : QString());
    setAccessibleDescription(toolTip());
}

QList<TimeField::Part> TimeField::parts() const {
    const QRegularExpressionMatch m = matched(lineEdit()->text());
    QList<Part> out;
    for (int i = 0; m.hasMatch() && i < PartCount; ++i)
        out.append({static_cast<int>(m.capturedStart(i + 1)), static_cast<int>(m.capturedLength(i + 1))});
    return out;
}

int TimeField::partAtCursor() const {
    const QList<Part> all = parts();
    const int cursor = lineEdit()->hasSelectedText() ? lineEdit()->selectionStart() : lineEdit()->cursorPosition();
    const bool whole = lineEdit()->selectedText() == lineEdit()->text();
    for (int i = 0; !whole && i < all.size(); ++i)
        if (cursor >= all[i].from && cursor <= all[i].from + all[i].length) return i;
    return Day;
}

void TimeField::selectPart(int part) {
    const QList<Part> all = parts();
    if (part >= 0 && part < all.size()) lineEdit()->setSelection(all[part].from, all[part].length);
}

void TimeField::stepBy(int steps) {
    if (isUnreadable()) return;
    const int part = partAtCursor();
    const QDateTime was = dateTime();
    switch (part) {
    case Year: setDateTime(was.addYears(steps)); break;
    case Month: setDateTime(was.addMonths(steps)); break;
    case Hour: setDateTime(was.addSecs(3600LL * steps)); break;
    case Minute: setDateTime(was.addSecs(60LL * steps)); break;
    default: setDateTime(was.addDays(steps));
    }
    selectPart(part);
    showTone();
}

/// From a part that is selected on to its neighbour; from the whole to its first part or its last one.
bool TimeField::moveByPart(int key) {
    const QList<Part> all = parts();
    if (!all.isEmpty() && lineEdit()->selectedText() == lineEdit()->text()) {
        selectPart(key == Qt::Key_Right ? Year : Minute);
        return true;
    }
    const int to = partAtCursor() + (key == Qt::Key_Right ? 1 : -1);
    for (const Part& p : all)
        if (lineEdit()->selectionStart() == p.from && lineEdit()->selectedText().size() == p.length && to >= 0 && to < all.size()) {
            selectPart(to);
            return true;
        }
    return false;
}

void TimeField::keyPressEvent(QKeyEvent* event) {
    const bool plain = event->modifiers() == Qt::NoModifier || event->modifiers() == Qt::KeypadModifier;
    switch (event->key()) {
    case Qt::Key_Up:
    case Qt::Key_Down: return stepBy(event->key() == Qt::Key_Up ? 1 : -1);
    case Qt::Key_Left:
    case Qt::Key_Right:
        if (plain && moveByPart(event->key())) return;
        break;
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Escape: return event->ignore();
    default: break;
    }
    lineEdit()->event(event);
}

void TimeField::focusInEvent(QFocusEvent* event) {
    QAbstractSpinBox::focusInEvent(event);
    if (event->reason() != Qt::MouseFocusReason && event->reason() != Qt::PopupFocusReason &&
        event->reason() != Qt::ActiveWindowFocusReason)
        lineEdit()->selectAll();
}

void TimeField::focusOutEvent(QFocusEvent* event) {
    const QString typed = lineEdit()->text();
    const bool keep = isUnreadable();
    QAbstractSpinBox::focusOutEvent(event); // writes the moment out again, with its weekday
    if (keep) {
        const QSignalBlocker quiet(lineEdit());
        lineEdit()->setText(typed);
    }
    showTone();
}

/// A click selects the part under it, to be typed over.
bool TimeField::eventFilter(QObject* watched, QEvent* event) {
    const bool handled = QDateTimeEdit::eventFilter(watched, event);
    if (watched == lineEdit() && event->type() == QEvent::MouseButtonRelease && !lineEdit()->hasSelectedText())
        QMetaObject::invokeMethod(this, [this] { if (!lineEdit()->hasSelectedText()) selectPart(partAtCursor()); }, Qt::QueuedConnection);
    return handled;
}

} // namespace interlude
