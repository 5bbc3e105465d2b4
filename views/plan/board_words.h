#pragma once
// Texts laid out once and drawn often, so that painting a thousand jobs lays out and allocates nothing.

#include <QFont>
#include <QStaticText>

#include <unordered_map>

class QPainter;

namespace interlude {

struct BoardWord {
    QStaticText text;
    double width = 0;
};

class BoardWords {
public:
    void setFont(const QFont& font);
    const QFont& font() const { return m_font; }
    /// Stays good until the font changes or `forget`; null for an empty text.
    const BoardWord* of(const QString& text);
    /// Drops everything when far more was collected than a board can show.
    void forget();

private:
    QFont m_font;
    std::unordered_map<QString, BoardWord> m_words;
};

} // namespace interlude
