#include "views/look/look.h"

#include "views/look/style.h"
#include "views/look/style_sheet.h"
#include "views/look/tabular.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QPalette>

namespace interlude::look {

namespace {

// Neutrals and accents as screens.md gives them; the others are chosen for contrast >= 4.5 on ground, panel and selected.
Colours makeLight() {
    Colours c;
    c.ground = QColor(0xF4, 0xF5, 0xF6);
    c.panel = QColor(0xFF, 0xFF, 0xFF);
    c.line = QColor(0xE3, 0xE6, 0xE8);
    c.muted = QColor(0x66, 0x70, 0x78);
    c.soft = QColor(0x4A, 0x54, 0x59);
    c.text = QColor(0x1B, 0x21, 0x24);
    c.accent = QColor(0x0B, 0x5C, 0x8A);
    c.onAccent = QColor(0xFF, 0xFF, 0xFF);
    c.selected = QColor(0xEE, 0xF3, 0xF6);
    c.alarm = QColor(0xB3, 0x26, 0x1E);
    c.good = QColor(0x00, 0x69, 0x4B);
    c.danger = QColor(0xB3, 0x26, 0x1E);
    c.warning = QColor(0xA3, 0x40, 0x00);
    c.caution = QColor(0x74, 0x56, 0x00);
    c.notice = QColor(0x0B, 0x5C, 0x8A);
    c.band = QColor(0xCF, 0xE3, 0xEF);
    return c;
}

Colours makeDark() {
    Colours c;
    c.ground = QColor(0x14, 0x18, 0x1B);
    c.panel = QColor(0x1E, 0x24, 0x28);
    c.line = QColor(0x33, 0x3B, 0x40);
    c.muted = QColor(0x8E, 0x99, 0x9F);
    c.soft = QColor(0xC3, 0xCB, 0xD0);
    c.text = QColor(0xF4, 0xF5, 0xF6);
    c.accent = QColor(0x6F, 0xB7, 0xDE);
    c.onAccent = QColor(0x14, 0x18, 0x1B);
    c.selected = QColor(0x26, 0x2F, 0x35);
    c.alarm = QColor(0xFF, 0x90, 0x82);
    c.good = QColor(0x5C, 0xCB, 0xA6);
    c.danger = QColor(0xFF, 0x90, 0x82);
    c.warning = QColor(0xF5, 0xA4, 0x5E);
    c.caution = QColor(0xE8, 0xDC, 0x5A);
    c.notice = QColor(0x6F, 0xB7, 0xDE);
    c.band = QColor(0x2B, 0x4B, 0x5C);
    return c;
}

const Colours lightColours = makeLight();
const Colours darkColours = makeDark();
Theme current = Theme::Light;

constexpr int tintCount = 7;
constexpr QColor okabeIto[tintCount] = {
    QColor(0xE6, 0x9F, 0x00), QColor(0x56, 0xB4, 0xE9), QColor(0x00, 0x9E, 0x73), QColor(0xF0, 0xE4, 0x42),
    QColor(0x00, 0x72, 0xB2), QColor(0xD5, 0x5E, 0x00), QColor(0xCC, 0x79, 0xA7)};
constexpr Qt::BrushStyle hatches[tintCount] = {Qt::BDiagPattern, Qt::HorPattern,  Qt::FDiagPattern,    Qt::Dense6Pattern,
                                               Qt::VerPattern,   Qt::CrossPattern, Qt::DiagCrossPattern};

const QString poly = QStringLiteral("poly");

/// "polyetherimides" → "pei": the first letter of each part of the name; else the first two letters.
QString wordInitials(const QString& word) {
    if (!word.startsWith(poly)) return word.left(2);
    static const QStringList parts{QStringLiteral("aryl"),   QStringLiteral("ether"), QStringLiteral("ester"),
                                   QStringLiteral("ketone"), QStringLiteral("imide"), QStringLiteral("amide"),
                                   QStringLiteral("carbonate"), QStringLiteral("sulfone"), QStringLiteral("styrene")};
    QString letters = poly.left(1), rest = word.mid(poly.size());
    for (bool found = true; found;) {
        found = false;
        for (const QString& part : parts) {
            if (!rest.startsWith(part)) continue;
            letters += part.left(1);
            rest = rest.mid(part.size());
            found = true;
            break;
        }
    }
    return letters.size() > 1 ? letters : letters + rest.left(1);
}

int tintIndex(int index) { return ((index % tintCount) + tintCount) % tintCount; }

QPalette paletteOf(const Colours& c) {
    QPalette p;
    p.setColor(QPalette::Window, c.ground);
    p.setColor(QPalette::WindowText, c.text);
    p.setColor(QPalette::Base, c.panel);
    p.setColor(QPalette::AlternateBase, c.ground);
    p.setColor(QPalette::Text, c.text);
    p.setColor(QPalette::PlaceholderText, c.muted);
    p.setColor(QPalette::Button, c.panel);
    p.setColor(QPalette::ButtonText, c.text);
    p.setColor(QPalette::BrightText, c.onAccent);
    p.setColor(QPalette::Highlight, c.accent);
    p.setColor(QPalette::HighlightedText, c.onAccent);
    p.setColor(QPalette::ToolTipBase, c.panel);
    p.setColor(QPalette::ToolTipText, c.text);
    p.setColor(QPalette::Link, c.accent);
    p.setColor(QPalette::LinkVisited, c.accent);
    p.setColor(QPalette::Light, c.panel);
    p.setColor(QPalette::Midlight, c.line);
    p.setColor(QPalette::Mid, c.line);
    p.setColor(QPalette::Dark, c.muted);
    p.setColor(QPalette::Shadow, c.muted);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        p.setColor(QPalette::Disabled, role, c.muted);
    p.setColor(QPalette::Disabled, QPalette::Highlight, c.line);
    p.setColor(QPalette::Disabled, QPalette::HighlightedText, c.soft);
    return p;
}

} // namespace

void apply(QApplication& app, Theme theme) {
    current = theme;
    if (!app.property("interlude.styled").toBool()) {
        QApplication::setStyle(new Style);
        app.setProperty("interlude.styled", true);
    }
    QApplication::setFont(font(Text::Body));
    QApplication::setPalette(paletteOf(colours()));
    app.setStyleSheet(styleSheet(colours()));
}

Theme theme() {
    return current;
}

const Colours& colours() {
    return current == Theme::Light ? lightColours : darkColours;
}

Colours coloursOf(Theme theme) {
    return theme == Theme::Light ? lightColours : darkColours;
}

QFont font(Text text, bool bold) {
    QFont f;
    f.setFamilies(textFamilies());
    switch (text) {
    case Text::Small: f.setPixelSize(12); break;
    case Text::Body: f.setPixelSize(13); break;
    case Text::Detail: f.setPixelSize(16); break;
    case Text::PanelTitle: f.setPixelSize(20); break;
    case Text::StepTitle: f.setPixelSize(32); break;
    case Text::Countdown: f.setPixelSize(72); break;
    }
    const bool heading = text == Text::PanelTitle || text == Text::StepTitle || text == Text::Countdown;
    f.setWeight(bold || heading ? QFont::DemiBold : QFont::Normal);
    return f;
}

QFont fontOfHeight(double capital, bool bold) {
    QFont f;
    f.setFamilies(textFamilies());
    f.setWeight(bold ? QFont::DemiBold : QFont::Normal);
    // Capitals are some seven tenths of the type's size; a font says how much exactly only for a size.
    int pixels = std::max(1, static_cast<int>(capital / 0.75));
    for (f.setPixelSize(pixels); QFontMetricsF(f).capHeight() < capital && pixels < 3 * capital; f.setPixelSize(++pixels)) {}
    return f;
}

QColor mixed(const QColor& over, const QColor& under, double share) {
    const auto part = [share](int a, int b) { return static_cast<int>(std::lround(a * share + b * (1.0 - share))); };
    return QColor(part(over.red(), under.red()), part(over.green(), under.green()), part(over.blue(), under.blue()));
}

QColor familyTint(int index, Theme theme) {
    // Strengths at which `text` and `soft` both stay readable on every tint (tests/look computes it).
    const double strength = theme == Theme::Light ? 0.35 : 0.26;
    return mixed(okabeIto[tintIndex(index)], coloursOf(theme).panel, strength);
}

QBrush familyHatch(int index, Theme theme) {
    const QColor tint = familyTint(index, theme);
    return QBrush(mixed(coloursOf(theme).text, tint, 0.16), hatches[tintIndex(index)]);
}

QString familyInitials(const QString& family) {
    static const QRegularExpression between(QStringLiteral("[^\\p{L}\\p{N}]+"));
    const QStringList words = family.toLower().split(between, Qt::SkipEmptyParts);
    QString letters;
    for (const QString& w : words) letters += words.size() > 1 && !w.startsWith(poly) ? w.left(1) : wordInitials(w);
    return letters.left(4).toUpper();
}

QColor toneColour(const QString& tone) {
    const Colours& c = colours();
    const QHash<QString, QColor> named = {
        {QStringLiteral("muted"), c.muted},     {QStringLiteral("soft"), c.soft},       {QStringLiteral("alarm"), c.alarm},
        {QStringLiteral("good"), c.good},       {QStringLiteral("accent"), c.accent},   {QStringLiteral("danger"), c.danger},
        {QStringLiteral("warning"), c.warning}, {QStringLiteral("caution"), c.caution}, {QStringLiteral("notice"), c.notice}};
    return named.value(tone, c.text);
}

QColor signalColour(SignalWord word) {
    switch (word) {
    case SignalWord::Danger: return colours().danger;
    case SignalWord::Warning: return colours().warning;
    case SignalWord::Caution: return colours().caution;
    case SignalWord::Notice: break;
    }
    return colours().notice;
}

QString signalText(SignalWord word) {
    switch (word) {
    case SignalWord::Danger: return QStringLiteral("DANGER");
    case SignalWord::Warning: return QStringLiteral("WARNING");
    case SignalWord::Caution: return QStringLiteral("CAUTION");
    case SignalWord::Notice: break;
    }
    return QStringLiteral("NOTICE");
}

} // namespace interlude::look
