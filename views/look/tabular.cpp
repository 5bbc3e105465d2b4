#include "views/look/tabular.h"

#include "views/look/font_tables.h"

#include <QFont>
#include <QFontDatabase>
#include <QFontInfo>
#include <QGuiApplication>
#include <QRawFont>

namespace interlude::look {

namespace {

const QString ownFamily = QStringLiteral("Interlude Text");

/// Glyphs of an OpenType coverage table, in its order.
QList<quint32> covered(const TableReader& t, qsizetype at) {
    QList<quint32> glyphs;
    const quint32 count = t.u16(at + 2);
    for (quint32 i = 0; i < count && at + 4 + 2 * qsizetype(i) < t.size(); ++i) {
        if (t.u16(at) == 1) {
            glyphs.append(t.u16(at + 4 + 2 * i));
            continue;
        }
        const qsizetype range = at + 4 + 6 * qsizetype(i);
        for (quint32 g = t.u16(range); g <= t.u16(range + 2) && g != 0; ++g) glyphs.append(g);
    }
    return glyphs;
}

void addSingleSubstitution(const TableReader& t, qsizetype at, QMap<quint32, quint32>& out) {
    const QList<quint32> from = covered(t, at + t.u16(at + 2));
    for (qsizetype i = 0; i < from.size(); ++i)
        out.insert(from[i], t.u16(at) == 1 ? (from[i] + t.u16(at + 4)) & 0xFFFF : t.u16(at + 6 + 2 * i));
}

void addLookup(const TableReader& t, qsizetype lookup, QMap<quint32, quint32>& out) {
    for (quint32 i = 0; i < t.u16(lookup + 4) && lookup < t.size(); ++i) {
        qsizetype at = lookup + t.u16(lookup + 6 + 2 * qsizetype(i));
        quint32 type = t.u16(lookup);
        if (type == 7) { // extension: the real table lies further away
            type = t.u16(at + 2);
            at += t.u32(at + 4);
        }
        if (type == 1) addSingleSubstitution(t, at, out);
    }
}

QMap<quint32, quint32> format4(const TableReader& t, qsizetype at) {
    QMap<quint32, quint32> out;
    const qsizetype twice = t.u16(at + 6), ends = at + 14, starts = ends + twice + 2, deltas = starts + twice,
                    offsets = deltas + twice;
    for (qsizetype s = 0; s < twice && starts + s < t.size(); s += 2) {
        const quint32 first = t.u16(starts + s), last = t.u16(ends + s), offset = t.u16(offsets + s);
        for (quint32 c = first; c <= last && c != 0xFFFF; ++c) {
            quint32 glyph = c;
            if (offset != 0) glyph = t.u16(offsets + s + offset + 2 * qsizetype(c - first));
            if (offset == 0 || glyph != 0) glyph = (glyph + t.u16(deltas + s)) & 0xFFFF;
            if (glyph != 0) out.insert(c, glyph);
        }
    }
    return out;
}

QMap<quint32, quint32> format12(const TableReader& t, qsizetype at) {
    QMap<quint32, quint32> out;
    for (quint32 g = 0; g < t.u32(at + 12) && g < 65536; ++g) {
        const qsizetype group = at + 16 + 12 * qsizetype(g);
        if (group + 12 > t.size()) break;
        const quint32 first = t.u32(group), last = qMin(t.u32(group + 4), first + 65535);
        for (quint32 c = first; c <= last; ++c) out.insert(c, t.u32(group + 8) + c - first);
    }
    return out;
}

QByteArray cmapOf(const QMap<quint32, quint32>& characters) {
    QByteArray groups;
    quint32 count = 0;
    for (auto it = characters.constBegin(); it != characters.constEnd();) {
        const quint32 first = it.key(), glyph = it.value();
        quint32 last = first;
        for (++it; it != characters.constEnd() && it.key() == last + 1 && it.value() == glyph + it.key() - first; ++it) ++last;
        put32(groups, first);
        put32(groups, last);
        put32(groups, glyph);
        ++count;
    }
    QByteArray out;
    // Version; two records of one subtable: Unicode and Windows, both for all of Unicode. With the second alone FreeType
    // would believe that a CFF font has no Unicode table, make one up from the glyphs' names, and bring the old digits back.
    for (const quint32 v : {0, 2}) put16(out, v);
    for (const quint32 platform : {0, 3}) {
        put16(out, platform);
        put16(out, platform == 0 ? 4 : 10);
        put32(out, 20);
    }
    put16(out, 12);
    put16(out, 0);
    put32(out, static_cast<quint32>(16 + groups.size()));
    put32(out, 0);
    put32(out, count);
    return out + groups;
}

QByteArray nameOf(const QString& family, const QString& style) {
    const QList<std::pair<int, QString>> names = {
        {1, family}, {2, style}, {4, family + QLatin1Char(' ') + style}, {6, QString(family + QLatin1Char('-') + style).remove(QLatin1Char(' '))}};
    QByteArray records, strings;
    for (const auto& [id, text] : names) {
        for (const int v : {3, 1, 0x409, id, static_cast<int>(2 * text.size()), static_cast<int>(strings.size())})
            put16(records, static_cast<quint32>(v));
        for (const QChar c : text) put16(strings, c.unicode());
    }
    QByteArray out;
    put16(out, 0);
    put16(out, static_cast<quint32>(names.size()));
    put16(out, static_cast<quint32>(6 + records.size()));
    return out + records + strings;
}

QByteArray fontFile(const QMap<QByteArray, QByteArray>& tables) {
    QByteArray out, data;
    put32(out, tables.contains("CFF ") ? 0x4F54544FU : 0x00010000U);
    put16(out, static_cast<quint32>(tables.size()));
    for (int i = 0; i < 3; ++i) put16(out, 0); // search hints, which readers work out themselves
    const qsizetype start = 12 + 16 * tables.size();
    for (auto it = tables.constBegin(); it != tables.constEnd(); ++it) {
        out += it.key();
        put32(out, 0);
        put32(out, static_cast<quint32>(start + data.size()));
        put32(out, static_cast<quint32>(it.value().size()));
        data += it.value();
        while (data.size() % 4 != 0) data.append('\0');
    }
    return out + data;
}

bool registerOwnFamily() {
    bool regular = false;
    for (const auto weight : {QFont::Normal, QFont::Medium, QFont::DemiBold, QFont::Bold}) {
        QFont wanted(QStringLiteral("Inter"));
        wanted.setWeight(weight);
        if (QFontInfo(wanted).family() != QStringLiteral("Inter")) continue;
        const QByteArray file = withTabularDigits(QRawFont::fromFont(wanted), ownFamily);
        const bool added = !file.isEmpty() && QFontDatabase::addApplicationFontFromData(file) >= 0;
        if (weight == QFont::Normal) regular = added;
    }
    return regular;
}

} // namespace

QMap<quint32, quint32> tabularGlyphs(const QByteArray& gsub) {
    const TableReader t(gsub);
    QMap<quint32, quint32> out;
    const qsizetype features = t.u16(6), lookups = t.u16(8);
    for (quint32 f = 0; f < t.u16(features); ++f) {
        const qsizetype record = features + 2 + 6 * qsizetype(f);
        if (t.tag(record) != "tnum") continue;
        const qsizetype feature = features + t.u16(record + 4);
        for (quint32 i = 0; i < t.u16(feature + 2); ++i) {
            const quint32 index = t.u16(feature + 4 + 2 * qsizetype(i));
            addLookup(t, lookups + t.u16(lookups + 2 + 2 * qsizetype(index)), out);
        }
        break; // the same for every script
    }
    return out;
}

QMap<quint32, quint32> charactersOf(const QByteArray& cmap) {
    const TableReader t(cmap);
    QMap<quint32, quint32> best;
    for (quint32 i = 0; i < t.u16(2); ++i) {
        const qsizetype at = t.u32(4 + 8 * qsizetype(i) + 4);
        const quint32 format = t.u16(at);
        if (format != 4 && format != 12) continue;
        const auto found = format == 4 ? format4(t, at) : format12(t, at);
        if (found.size() > best.size()) best = found;
    }
    return best;
}

QByteArray withTabularDigits(const QRawFont& font, const QString& family) {
    QMap<QByteArray, QByteArray> tables;
    for (const char* tag : {"CFF ", "GDEF", "GPOS", "GSUB", "OS/2", "cvt ", "fpgm", "gasp", "glyf", "head", "hhea", "hmtx",
                            "loca", "maxp", "post", "prep"}) {
        const QByteArray table = font.fontTable(tag);
        if (!table.isEmpty()) tables.insert(tag, table);
    }
    const QMap<quint32, quint32> tabular = tabularGlyphs(tables.value("GSUB"));
    QMap<quint32, quint32> characters = charactersOf(font.fontTable("cmap"));
    for (quint32 digit = '0'; digit <= '9'; ++digit) {
        if (!tabular.contains(characters.value(digit))) return {};
        characters[digit] = tabular.value(characters.value(digit));
    }
    tables.insert("cmap", cmapOf(characters));
    tables.insert("name", nameOf(family, QString::number(font.weight())));
    return fontFile(tables);
}

QStringList textFamilies() {
    if (!qGuiApp) return {QStringLiteral("Inter"), QStringLiteral("DejaVu Sans")};
    static const bool own = registerOwnFamily();
    // Without tabular digits of its own Inter would jump: then DejaVu Sans sets everything.
    return own ? QStringList{ownFamily, QStringLiteral("DejaVu Sans")} : QStringList{QStringLiteral("DejaVu Sans")};
}

} // namespace interlude::look
