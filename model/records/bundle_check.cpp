#include "model/records/bundle_check.h"

#include <QCryptographicHash>
#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRegularExpression>

#include <algorithm>

namespace interlude {

namespace {

constexpr qint64 largestList = 16 * 1024 * 1024; ///< of the list or a record: far above any real one

struct Listed { QString sum, name; };

tl::unexpected<Finding> refused(QString reason, QString remedy, const QString& place) {
    return refusal(QStringLiteral("bundle"), std::move(reason), std::move(remedy), place);
}

Outcome<QList<Listed>> readSums(const QString& path) {
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return refused(QStringLiteral("%1 cannot be read: %2").arg(path, file.errorString()),
                       QStringLiteral("name the folder of an export, in which a list of sums lies"), path);
    static const QRegularExpression line(QStringLiteral("^([0-9a-f]{64}) [ *](.+)$"));
    QList<Listed> out;
    const QStringList lines = QString::fromUtf8(file.read(largestList)).split(QLatin1Char('\n'));
    for (qsizetype i = 0; i < lines.size(); ++i) {
        if (lines[i].isEmpty()) continue;
        const auto match = line.match(lines[i]);
        const QString place = QStringLiteral("%1:%2").arg(path).arg(i + 1);
        if (!match.hasMatch())
            return refused(QStringLiteral("%1 is not a sum and a file's name").arg(place),
                           QStringLiteral("64 digits 0 to 9, a to f, two blanks, a name"), place);
        const QString name = QDir::cleanPath(match.captured(2));
        if (QDir::isAbsolutePath(name) || name.startsWith(QStringLiteral("..")))
            return refused(QStringLiteral("%1 names a file outside the folder").arg(place), {}, place);
        out.append({match.captured(1), name});
    }
    if (out.isEmpty()) return refused(QStringLiteral("%1 lists no file").arg(path), {}, path);
    return out;
}

FileState stateOf(const QString& path, const QString& sum) {
    if (!QFileInfo::exists(path)) return FileState::Missing;
    QFile file(path);
    QCryptographicHash hash(QCryptographicHash::Sha256);
    if (!file.open(QIODevice::ReadOnly) || !hash.addData(&file)) return FileState::Unreadable;
    return QString::fromLatin1(hash.result().toHex()) == sum ? FileState::Fits : FileState::Changed;
}

void readAbout(BundleCheck& check) {
    QFile file(QDir(check.folder).filePath(bundle::recordJson));
    if (!file.open(QIODevice::ReadOnly)) return;
    const QJsonObject o = QJsonDocument::fromJson(file.read(largestList)).object();
    const auto text = [&](const char* key) { return o.value(QLatin1String(key)).toString(); };
    if (!text("title").isEmpty()) check.about.append(text("title"));
    if (!text("shop").isEmpty()) check.about.append(text("shop"));
    if (o.value(QStringLiteral("revision")).isDouble())
        check.about.append(QStringLiteral("Revision %1").arg(o.value(QStringLiteral("revision")).toInt()));
    if (!text("state").isEmpty()) check.about.append(text("state"));
    if (o.value(QStringLiteral("example")).toBool()) check.about.append(QStringLiteral("An example: nothing of it happened"));
    check.ledgerHash = text("verification");
}

} // namespace

bool BundleCheck::fits() const {
    return std::all_of(files.cbegin(), files.cend(),
                       [](const CheckedFile& f) { return f.state == FileState::Fits || f.state == FileState::NotListed; });
}

bool isBundle(const QString& path) {
    const QFileInfo info(path);
    if (info.isDir())
        return QFileInfo::exists(QDir(path).filePath(bundle::sums)) && !QFileInfo::exists(QDir(path).filePath(QStringLiteral("fleet.yaml")));
    return info.isFile() && info.fileName().endsWith(QStringLiteral(".interlude.json"));
}

Outcome<BundleCheck> checkBundle(const QString& path) {
    const QFileInfo info(path);
    BundleCheck check;
    check.folder = info.isDir() ? path : info.path();
    // Absolute: of a relative folder, what the iterator finds would be named anew from the folder itself.
    const QDir dir(QFileInfo(check.folder).absoluteFilePath());
    const auto listed = readSums(dir.filePath(bundle::sums));
    if (!listed) return tl::unexpected(listed.error());
    QStringList names{bundle::sums};
    for (const Listed& each : *listed) {
        check.files.append({each.name, stateOf(dir.filePath(each.name), each.sum)});
        names.append(each.name);
    }
    QStringList others;
    QDirIterator all(dir.path(), QDir::Files | QDir::Hidden, QDirIterator::Subdirectories);
    while (all.hasNext()) {
        const QString name = dir.relativeFilePath(all.next());
        // The bundles in a whole export have lists of their own, which that of the export sums up.
        if (!names.contains(name) && !name.endsWith(QLatin1Char('/') + bundle::sums)) others.append(name);
    }
    others.sort();
    for (const QString& name : std::as_const(others)) check.files.append({name, FileState::NotListed});
    readAbout(check);
    return check;
}

QString sentence(const CheckedFile& file) {
    switch (file.state) {
    case FileState::Fits: return QStringLiteral("%1: unchanged").arg(file.name);
    case FileState::Changed: return QStringLiteral("%1: CHANGED since it was written").arg(file.name);
    case FileState::Missing: return QStringLiteral("%1: MISSING").arg(file.name);
    case FileState::Unreadable: return QStringLiteral("%1: CANNOT BE READ").arg(file.name);
    case FileState::NotListed: return QStringLiteral("%1: not in the list of sums").arg(file.name);
    }
    return {};
}

QString sentence(const BundleCheck& check) {
    const auto bad = std::count_if(check.files.cbegin(), check.files.cend(), [](const CheckedFile& f) {
        return f.state != FileState::Fits && f.state != FileState::NotListed;
    });
    return bad == 0 ? QStringLiteral("Every file is as it was written.")
                    : QStringLiteral("%1 of %2 files are not as they were written.").arg(bad).arg(check.files.size());
}

} // namespace interlude
