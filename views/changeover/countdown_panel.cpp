#include "views/changeover/countdown_panel.h"

#include "views/words/words.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QVBoxLayout>

namespace interlude {

QString countdownDigits(const Countdown& c, Instant now) {
    const auto left = c.left(now);
    return left ? words::countdown(*left) : CountdownPanel::tr("measure");
}

QString countdownBasis(const Countdown& c, Instant now) {
    const auto left = c.left(now);
    if (!left || *left > Milliseconds(0)) return c.basis;
    const QString over = c.needsReading ? CountdownPanel::tr("over: take the reading now")
                                        : CountdownPanel::tr("over: look and confirm");
    return c.basis.isEmpty() ? over : QStringLiteral("%1 · %2").arg(over, c.basis);
}

CountdownPanel::CountdownPanel(Size size, QWidget* parent) : Panel({}, parent), m_size(size) {
    const bool large = size == Size::Large;
    setFocusPolicy(Qt::TabFocus);
    setCursor(Qt::PointingHandCursor);
    layout()->setContentsMargins(2 * look::unit, look::unit + 4, 2 * look::unit, look::unit + 4);
    body()->setSpacing(0);
    m_heading = look::label(look::Text::Body, {}, true);
    m_digits = look::label(large ? look::Text::Countdown : look::Text::StepTitle);
    m_digits->setObjectName(QStringLiteral("countdownDigits"));
    m_digits->setWordWrap(false);
    m_basis = look::mutedLabel(look::Text::Body);
    for (QLabel* l : {m_heading, m_digits, m_basis}) {
        l->setTextInteractionFlags(Qt::NoTextInteraction);
        body()->addWidget(l);
    }
    m_basis->setVisible(large);
}

void CountdownPanel::show(const Countdown& c, Instant now, const QString& heading) {
    m_step = c.step;
    const QString title = heading.isEmpty() ? c.title : heading;
    const QString digits = countdownDigits(c, now);
    const auto left = c.left(now);
    // "1:02:10" and "measure" are too wide for the column at full size.
    const bool wide = digits.size() > 6;
    if (m_size == Size::Large) m_digits->setFont(look::font(wide ? look::Text::StepTitle : look::Text::Countdown));
    m_heading->setText(title);
    m_digits->setText(digits);
    m_basis->setText(countdownBasis(c, now));
    if (m_size == Size::Small) m_basis->setVisible(left && *left <= Milliseconds(0));
    setAccessibleName(QStringLiteral("%1: %2").arg(title, left ? words::countdownSpoken(*left) : digits));
    setAccessibleDescription(m_basis->text());
}

void CountdownPanel::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) Q_EMIT chosen(m_step);
    Panel::mouseReleaseEvent(event);
}

void CountdownPanel::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter || event->key() == Qt::Key_Space)
        Q_EMIT chosen(m_step);
    else
        Panel::keyPressEvent(event);
}

} // namespace interlude
