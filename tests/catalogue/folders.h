#pragma once
// The small valid base folder, and folders laid over it.

#include "model/catalogue/reader.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QTemporaryDir>

namespace interlude::tests {

inline QString catalogueTests() { return QStringLiteral(INTERLUDE_SOURCE_DIR "/tests/catalogue"); }

inline QByteArray bytesOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

inline bool write(const QString& path, const QByteArray& bytes) {
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

/// name → bytes of the base folder.
inline QMap<QString, QByteArray> baseFiles() {
    QMap<QString, QByteArray> out;
    const QDir folder(catalogueTests() + QStringLiteral("/base"));
    for (const QString& name : folder.entryList(QDir::Files)) out.insert(name, bytesOf(folder.filePath(name)));
    return out;
}

/// The base folder as texts, for readFleetTexts.
inline QMap<QString, QString> baseTexts() {
    QMap<QString, QString> out;
    const auto files = baseFiles();
    for (auto it = files.cbegin(); it != files.cend(); ++it) out.insert(it.key(), QString::fromUtf8(it.value()));
    return out;
}

inline QString linesOf(const Problems& problems) {
    QString out;
    for (const Problem& p : problems) out += p.text() + QLatin1Char('\n');
    return out;
}

/// What is replaced in a file of the base.
struct Edit {
    QString file, from, to;
};
/// The base with these replacements, one after the other; the test fails if `from` is not there.
inline QMap<QString, QString> baseWith(const QList<Edit>& edits) {
    auto texts = baseTexts();
    for (const auto& [file, from, to] : edits) {
        if (!texts.value(file).contains(from)) qFatal("%s does not hold \"%s\"", qPrintable(file), qPrintable(from));
        texts[file].replace(from, to);
    }
    return texts;
}
inline QMap<QString, QString> baseWith(const QString& file, const QString& from, const QString& to) {
    return baseWith({Edit{file, from, to}});
}

} // namespace interlude::tests
