#include "model/catalogue/text_file.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

namespace interlude {

namespace {

const QString tooLarge = QStringLiteral("the file is larger than 8 MiB");
const QString shorten = QStringLiteral("shorten it; jobs, spools and nozzles can be imported from CSV as well");

using Byte = unsigned char;

const QByteArray byteOrderMark("\xEF\xBB\xBF");

/// Length of the UTF-8 sequence at `at`, or 0 when it is broken (overlong, surrogate, cut short, beyond U+10FFFF).
int sequenceLength(const QByteArray& b, qsizetype at) {
    const auto byte = [&](qsizetype i) { return i < b.size() ? static_cast<Byte>(b[i]) : Byte(0); };
    const auto follows = [&](qsizetype i, Byte low = 0x80, Byte high = 0xBF) { return byte(i) >= low && byte(i) <= high; };
    const Byte first = byte(at);
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first <= 0xDF) return follows(at + 1) ? 2 : 0;
    if (first >= 0xE0 && first <= 0xEF) {
        const Byte low = first == 0xE0 ? 0xA0 : 0x80, high = first == 0xED ? 0x9F : 0xBF;
        return follows(at + 1, low, high) && follows(at + 2) ? 3 : 0;
    }
    if (first >= 0xF0 && first <= 0xF4) {
        const Byte low = first == 0xF0 ? 0x90 : 0x80, high = first == 0xF4 ? 0x8F : 0xBF;
        return follows(at + 1, low, high) && follows(at + 2) && follows(at + 3) ? 4 : 0;
    }
    return 0;
}

QString hex(Byte b) {
    return QStringLiteral("0x%1").arg(b, 2, 16, QLatin1Char('0')).toUpper().replace(QLatin1Char('X'), QLatin1Char('x'));
}

/// The first byte that is not text, as a problem.
std::optional<Problem> firstBadByte(const QString& file, const QByteArray& b) {
    int line = 1, column = 1;
    for (qsizetype i = 0; i < b.size();) {
        const auto byte = static_cast<Byte>(b[i]);
        const int length = sequenceLength(b, i);
        if (length == 0)
            return Problem{file, line, column, QStringLiteral("byte %1 is not UTF-8").arg(hex(byte)),
                           QStringLiteral("save the file as UTF-8")};
        // Nobody sees it, and parsers drop it or keep it as they please.
        if (byte == 0xEF && QByteArrayView(b).sliced(i).startsWith(byteOrderMark))
            return Problem{file, line, column, QStringLiteral("an invisible byte order mark inside the text"),
                           QStringLiteral("delete this place and type it anew; it comes in where files are put together")};
        const bool control = byte < 0x20 || byte == 0x7F;
        if (control && byte != '\n' && byte != '\r' && byte != '\t')
            return Problem{file, line, column, QStringLiteral("control character %1").arg(hex(byte)),
                           QStringLiteral("remove it, or save the file as UTF-8 text")};
        const bool lineEnd = byte == '\n' || (byte == '\r' && !(i + 1 < b.size() && b[i + 1] == '\n'));
        line += lineEnd ? 1 : 0;
        column = lineEnd ? 1 : column + 1;
        i += length;
    }
    return {};
}

} // namespace

std::optional<QString> textOf(const QString& file, const QByteArray& bytes, Problems& problems) {
    if (bytes.size() > maxFileBytes) {
        problems.append({file, 0, 0, tooLarge, shorten});
        return {};
    }
    const QByteArray body = bytes.startsWith(byteOrderMark) ? bytes.mid(byteOrderMark.size()) : bytes;
    if (const auto bad = firstBadByte(file, body)) {
        problems.append(*bad);
        return {};
    }
    return QString::fromUtf8(body);
}

std::optional<QString> readTextFile(const QString& folder, const QString& name, Problems& problems) {
    const QFileInfo info(QDir(folder).filePath(name));
    const auto refuse = [&](const QString& what, const QString& right) -> std::optional<QString> {
        problems.append({name, 0, 0, what, right});
        return {};
    };
    if (!info.exists()) return refuse(QStringLiteral("there is no such file"), QStringLiteral("add it to the fleet folder"));
    if (!info.isFile()) return refuse(QStringLiteral("this is not a file"), QStringLiteral("a text file of this name is wanted"));
    if (info.size() > maxFileBytes)
        return refuse(tooLarge, shorten);
    QFile file(info.filePath());
    if (!file.open(QIODevice::ReadOnly))
        return refuse(QStringLiteral("the file cannot be opened (%1)").arg(file.errorString()),
                      QStringLiteral("allow this user to read it"));
    // One byte more than allowed, in case that it grew since it was looked at.
    return textOf(name, file.read(maxFileBytes + 1), problems);
}

QString withPlainLineEnds(QString text) {
    return text.replace(QStringLiteral("\r\n"), QStringLiteral("\n")).replace(QLatin1Char('\r'), QLatin1Char('\n'));
}

} // namespace interlude
