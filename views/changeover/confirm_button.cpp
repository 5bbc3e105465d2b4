#include "views/changeover/confirm_button.h"

#include <QFontMetrics>

namespace interlude {

namespace {
/// Room for border and padding on both sides, as the style sheet draws them.
constexpr int margins = 4 * look::unit;
} // namespace

QString fittedText(const QString& text, const QFontMetrics& metrics, int width) {
    if (metrics.horizontalAdvance(text) <= width) return text;
    qsizetype best = -1;
    int bestWidth = 0;
    for (qsizetype i = text.indexOf(QLatin1Char(' ')); i >= 0; i = text.indexOf(QLatin1Char(' '), i + 1)) {
        const int longer =
            std::max(metrics.horizontalAdvance(text.left(i)), metrics.horizontalAdvance(text.mid(i + 1)));
        if (best < 0 || longer < bestWidth) {
            best = i;
            bestWidth = longer;
        }
    }
    const auto elided = [&](const QString& line) { return metrics.elidedText(line, Qt::ElideRight, width); };
    if (best < 0) return elided(text);
    return elided(text.left(best)) + QLatin1Char('\n') + elided(text.mid(best + 1));
}

ConfirmButton::ConfirmButton(QWidget* parent) : QPushButton(parent) {
    setAutoDefault(false);
    setProperty("primary", true);
    setMinimumHeight(look::confirmHeight);
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred); // as high as the acts beside it
}

void ConfirmButton::setFullText(const QString& text, const QString& brief) {
    if (text == m_full && brief == m_brief) return;
    m_full = text;
    m_brief = brief;
    setToolTip(text);
    setAccessibleName(text);
    fit();
}

void ConfirmButton::resizeEvent(QResizeEvent* event) {
    QPushButton::resizeEvent(event);
    fit();
}

void ConfirmButton::fit() {
    const int room = std::max(0, width() - margins);
    QFont chosen;
    QString shown;
    const auto fits = [&](const QString& text) {
        for (const look::Text role : {look::Text::PanelTitle, look::Text::Detail, look::Text::Body}) {
            chosen = look::font(role, true);
            shown = fittedText(text, QFontMetrics(chosen), room);
            const bool twoLines = shown.contains(QLatin1Char('\n'));
            // Two lines of panel title would touch the borders.
            if (!shown.contains(QChar(0x2026)) && !(twoLines && role == look::Text::PanelTitle)) return true;
        }
        return false;
    };
    if (!fits(m_full) && !m_brief.isEmpty()) fits(m_brief);
    setFont(chosen);
    setText(look::shown(shown));
}

} // namespace interlude
