#pragma once
// Sizes and pages of the wall view, for eyes two metres away. ISO 9241-303 asks for characters of 20 to 22 minutes of arc,
// measured on the height of capital letters: 2000 mm · tan(22/60°) = 12.8 mm, taken as 13; digits that count have 25 mm.
// Lengths are device-independent pixels unless the name says mm. Plain values, no widget.

#include <QList>
#include <QSizeF>

#include <optional>

namespace interlude {

inline constexpr double wallCapitalMm = 13;
inline constexpr double wallDigitMm = 25;

/// Device-independent pixels per millimetre of a screen, and where that comes from.
struct Density {
    enum class From { Measured, Screen, Assumed };
    double perMm = 0;
    From from = From::Assumed;
};
/// `said` is the size that the screen says it has; `measuredWidthMm` was measured by a person and goes before it. A screen
/// that says nothing, something lopsided (television sets say 160 × 90) or something beyond 40 to 240 pixels per inch is
/// taken for one of 96.
Density wallDensity(QSize pixels, QSizeF saidMm, std::optional<double> measuredWidthMm = {});

/// Heights of capital letters and of the large digits.
struct WallSizes {
    double capital = 0, digit = 0;
    double inset() const;  ///< between a card's border and its text
    /// From the baseline of a card's first line to that of its figure, to what the figure means, to who is needed.
    double toFigure() const, toState() const, toPeople() const;
    QSizeF card() const;   ///< the least that a card needs
    double foot() const;   ///< the line under the cards
};
WallSizes wallSizes(double pixelsPerMm);

/// How cards stand in a room, and how much larger than the least their text can be (1 to 1.6).
struct WallGrid {
    int columns = 1, rows = 1;
    double larger = 1;
    int capacity() const { return columns * rows; }
};
/// `room` is without the foot. At least one card, however small the room is.
WallGrid wallGrid(QSizeF room, const WallSizes& sizes, int printers);

/// Which printers are in view at a turn. All, where they fit; else those where something is wrong stay, and the others take
/// turns in the places left.
struct WallPage {
    QList<int> shown;
    QList<int> wrongElsewhere; ///< wrong now, but not in view: to be named in words
    int number = 1, of = 1;
};
WallPage wallPage(int printers, const QList<int>& wrong, int capacity, int turn);

} // namespace interlude
