#pragma once
// The tables of resources/help/keys.md, as read by a test: what the help promises must be there, and nothing else.

#include <QFile>
#include <QKeySequence>
#include <QRegularExpression>
#include <QSet>

namespace interlude::tests {

/// The keys of the table below this heading of keys.md, as portable text ("Ctrl+F"); words such as *scanner* left out.
inline QSet<QString> keysBelow(const QString& heading) {
    QFile file(QStringLiteral(INTERLUDE_SOURCE_DIR "/resources/help/keys.md"));
    if (!file.open(QIODevice::ReadOnly)) return {};
    QSet<QString> keys;
    QString section;
    for (const QString& line : QString::fromUtf8(file.readAll()).split(QLatin1Char('\n'))) {
        if (line.startsWith(QLatin1Char('#'))) section = QString(line).remove(QLatin1Char('#')).trimmed();
        if (section != heading || !line.startsWith(QStringLiteral("| "))) continue;
        const QString cell = line.section(QLatin1Char('|'), 1, 1).trimmed();
        if (cell == QStringLiteral("key") || cell.startsWith(QLatin1Char('*'))) continue;
        static const QRegularExpression range(QStringLiteral("^(.*?)(\\d) … .*?(\\d)$"));
        if (const auto found = range.match(cell); found.hasMatch()) {
            for (int n = found.captured(2).toInt(); n <= found.captured(3).toInt(); ++n)
                keys.insert(QKeySequence(found.captured(1) + QString::number(n)).toString());
            continue;
        }
        for (const QString& one : cell.split(QStringLiteral(", "))) keys.insert(QKeySequence(one).toString());
    }
    return keys;
}

} // namespace interlude::tests
