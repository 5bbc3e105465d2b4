#pragma once
// Digits of one width, so that a running time does not jump. Qt 6.4 cannot switch on a font's `tnum` feature, so the
// installed Inter is taken as it is, its digits are pointed at its own tabular glyphs (found through GSUB `tnum`), and
// the result is given to this program alone, in memory, under a name of its own. Formats: OpenType 1.9, chapters cmap,
// GSUB, name. Where anything is not as expected, the next family serves: DejaVu Sans, whose digits are tabular.

#include <QByteArray>
#include <QMap>
#include <QStringList>

class QRawFont;

namespace interlude::look {

/// The families of all text, first choice first. Needs the application to exist; registers the font at the first call.
QStringList textFamilies();

/// The font file with tabular digits, of family `family`; empty where the font has no `tnum` or cannot be read.
QByteArray withTabularDigits(const QRawFont& font, const QString& family);

/// Glyphs that `tnum` puts in place of others; empty where the table has none. `gsub` is the GSUB table.
QMap<quint32, quint32> tabularGlyphs(const QByteArray& gsub);
/// Character → glyph of a cmap table (formats 4 and 12, whichever holds more).
QMap<quint32, quint32> charactersOf(const QByteArray& cmap);

} // namespace interlude::look
