#pragma once
// The one place that holds colours, sizes and type. No colour literal and no pixel size of text elsewhere in views.
// Measures are device-independent pixels on an 8-px grid. Family tints: the colour-vision-safe palette of Okabe and Ito
// (2008) at reduced strength, always with a hatch and the family's initials beside it.

#include "model/catalogue/procedure.h"
#include "model/findings/finding.h"

#include <QBrush>
#include <QColor>
#include <QFont>
#include <QIcon>
#include <QString>

class QApplication;
class QWidget;

namespace interlude {
class Catalogue;
}

namespace interlude::look {

enum class Theme { Light, Dark };

struct Colours {
    QColor ground;    ///< behind panels
    QColor panel;     ///< panels, fields
    QColor line;      ///< borders, grid
    QColor muted;     ///< secondary text on ground and panel, contrast >= 4.5
    QColor soft;      ///< body text of less weight
    QColor text;
    QColor accent, onAccent;
    QColor selected;  ///< row or step in hand, behind `text`
    QColor alarm;     ///< what is wrong now: text and border on panel, contrast >= 4.5
    QColor good;      ///< rare: a completed mark, never alone
    QColor danger, warning, caution, notice; ///< signal words, readable on panel
    QColor band;      ///< chart: model band behind the line
};

/// Sets style, palette, style sheet and fonts of the whole program; may be called again to change the theme.
void apply(QApplication& app, Theme theme);
Theme theme();
const Colours& colours();
/// Colours of a theme without applying it (for the contrast test and for paper, which is always Light).
Colours coloursOf(Theme theme);

enum class Text { Small, Body, Detail, PanelTitle, StepTitle, Countdown };
/// Inter, then DejaVu Sans; tabular digits. Small 12, Body 13, Detail 16, PanelTitle 20, StepTitle 32, Countdown 72.
QFont font(Text text, bool bold = false);
/// The same type where not the screen's grid but the eye's distance says how large it is: capitals and digits at least that
/// high, in device-independent pixels.
QFont fontOfHeight(double capital, bool bold = false);
inline constexpr int unit = 8;
inline constexpr int radius = 4;
/// Height of the one large confirm button, >= 15 mm at 96 dpi.
inline constexpr int confirmHeight = 64;
inline constexpr int buttonHeight = 40;

/// Position of a chamber family among those of the catalogue, in the order of materials.yaml; -1 when there is none.
int familyIndex(const Catalogue& catalogue, const QString& chamberFamily);
/// Tint of a chamber (or melt) family, by its position in `families`; stable, repeats after seven.
QColor familyTint(int index, Theme theme);
/// The hatch that goes with it, in the line colour.
QBrush familyHatch(int index, Theme theme);
/// `share` of one colour laid over another, opaque.
QColor mixed(const QColor& over, const QColor& under, double share);
/// Initials of a family name, up to four letters, upper case: "styrenics" → "ST", "polyamides" → "PA", "polyetherimides" → "PEI".
QString familyInitials(const QString& family);

/// Our own drawings in resources/icons, coloured for the theme. Unknown names give an empty icon (a test knows all).
QIcon icon(const QString& name);
/// The program's own mark, for windows and menus.
QIcon programIcon();
/// The drawing of a caution subject (hot-surface …).
QIcon cautionIcon(const QString& subject);
/// A text colour by its name: muted, soft, alarm, good, accent, danger, warning, caution, notice; else the plain one.
QColor toneColour(const QString& tone);
QColor signalColour(SignalWord word);
/// Upper-case signal word: DANGER, WARNING, CAUTION, NOTICE.
QString signalText(SignalWord word);

} // namespace interlude::look
