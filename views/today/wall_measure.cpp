#include "views/today/wall_measure.h"

#include "views/look/look.h"

#include <algorithm>
#include <cmath>

namespace interlude {

namespace {
constexpr double mmPerInch = 25.4;
constexpr double assumedPerInch = 96;
// In heights of a capital letter.
constexpr double hangs = 0.28; ///< below the line, of Inter
constexpr double pitchShare = 1.32;
constexpr double insetShare = 0.25;
constexpr double overDigits = 0.45, underDigits = 1.35;
constexpr double widthShare = 12.3; ///< some 16 letters
} // namespace

Density wallDensity(QSize pixels, QSizeF saidMm, std::optional<double> measuredWidthMm) {
    if (measuredWidthMm && *measuredWidthMm > 0) return {pixels.width() / *measuredWidthMm, Density::From::Measured};
    if (!saidMm.isEmpty()) {
        const double across = pixels.width() / saidMm.width(), down = pixels.height() / saidMm.height();
        const bool square = std::abs(across - down) <= 0.1 * std::max(across, down);
        if (square && down * mmPerInch >= 40 && down * mmPerInch <= 240) return {down, Density::From::Screen};
    }
    return {assumedPerInch / mmPerInch, Density::From::Assumed};
}

double WallSizes::inset() const {
    return insetShare * capital;
}

QSizeF WallSizes::card() const {
    return {widthShare * capital, 2 * inset() + (1 + hangs) * capital + toFigure() + toState() + toPeople()};
}

double WallSizes::toFigure() const {
    return digit + overDigits * capital;
}

double WallSizes::toState() const {
    return underDigits * capital;
}

double WallSizes::toPeople() const {
    return pitchShare * capital;
}

double WallSizes::foot() const {
    return pitchShare * capital + look::unit;
}

WallSizes wallSizes(double pixelsPerMm) {
    return {wallCapitalMm * pixelsPerMm, wallDigitMm * pixelsPerMm};
}

WallGrid wallGrid(QSizeF room, const WallSizes& sizes, int printers) {
    const QSizeF card = sizes.card();
    const auto fit = [](double length, double least) {
        return std::max(1, static_cast<int>((length - look::unit) / (least + look::unit)));
    };
    const int most = fit(room.width(), card.width()), down = fit(room.height(), card.height());
    const int wanted = std::clamp(printers, 1, most * down);
    WallGrid best;
    double largest = -1;
    for (int columns = 1; columns <= std::min(most, wanted); ++columns) {
        const int rows = (wanted + columns - 1) / columns;
        if (rows > down) continue;
        const double larger = std::min((room.width() - look::unit) / columns / (card.width() + look::unit),
                                       (room.height() - look::unit) / rows / (card.height() + look::unit));
        if (larger <= largest) continue;
        largest = larger;
        best = {columns, rows, std::clamp(larger, 1.0, 1.6)};
    }
    return best;
}

WallPage wallPage(int printers, const QList<int>& wrong, int capacity, int turn) {
    WallPage page;
    if (printers <= capacity) {
        for (int i = 0; i < printers; ++i) page.shown.append(i);
        return page;
    }
    // One place at least is left to turn in.
    page.shown = wrong.mid(0, std::max(0, capacity - 1));
    QList<int> others = wrong.mid(page.shown.size());
    for (int i = 0; i < printers; ++i)
        if (!wrong.contains(i)) others.append(i);
    const int places = capacity - static_cast<int>(page.shown.size());
    page.of = (static_cast<int>(others.size()) + places - 1) / places;
    page.number = page.of > 0 ? turn % page.of + 1 : 1;
    page.shown += others.mid((page.number - 1) * places, places);
    for (const int w : wrong)
        if (!page.shown.contains(w)) page.wrongElsewhere.append(w);
    return page;
}

} // namespace interlude
