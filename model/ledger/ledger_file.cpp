#include "model/ledger/store.h"

#include <QDir>
#include <QRegularExpression>
#include <QStandardPaths>

namespace interlude {

namespace {

const QString rule = QStringLiteral("ledger-scheme");

Outcome<QString> inUserData(const QString& fleetId) {
    static const QRegularExpression plain(QStringLiteral("^[A-Za-z0-9_][A-Za-z0-9_.-]*$"));
    if (!plain.match(fleetId).hasMatch())
        return refusal(rule, QStringLiteral("the fleet id \"%1\" cannot be a file name").arg(fleetId),
                       QStringLiteral("use letters, digits, hyphens and underscores"), fleetId);
    const QString data = QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation);
    return QString(data + QStringLiteral("/interlude/") + fleetId + QStringLiteral(".sqlite"));
}

} // namespace

Outcome<QString> ledgerFile(const QString& option, const QString& fromFleet, const QString& fleetFolder,
                            const QString& fleetId) {
    const QString said = option.isEmpty() ? fromFleet : option;
    if (said.isEmpty()) return inUserData(fleetId);
    // A scheme has two letters at least and nothing of a path in it.
    static const QRegularExpression withScheme(QStringLiteral("^([A-Za-z][A-Za-z0-9+-]+):(.*)$"),
                                               QRegularExpression::DotMatchesEverythingOption);
    QString path = said;
    if (const auto match = withScheme.match(said); match.hasMatch()) {
        const QString scheme = match.captured(1).toLower();
        if (scheme == QLatin1String("postgresql") || scheme == QLatin1String("postgres"))
            return refusal(rule, QStringLiteral("a shared ledger (%1:) is not in this version").arg(scheme),
                           QStringLiteral("use sqlite:PATH or a path"), said);
        if (scheme != QLatin1String("sqlite"))
            return refusal(rule, QStringLiteral("there is no kind of ledger called \"%1:\"").arg(scheme),
                           QStringLiteral("use sqlite:PATH or a path"), said);
        path = match.captured(2);
        if (path.startsWith(QLatin1String("//"))) path.remove(0, 2);
    }
    if (path.isEmpty() || path.endsWith(QLatin1Char('/')))
        return refusal(rule, QStringLiteral("\"%1\" names no file").arg(said),
                       QStringLiteral("name the ledger's file, for instance sqlite:ledger.sqlite"), said);
    if (path.startsWith(QLatin1String("~/"))) path = QDir::homePath() + path.mid(1);
    // What is typed is meant from where one stands; what a file says, from where the file lies.
    const QString from = option.isEmpty() ? QDir(fleetFolder).absolutePath() : QDir::currentPath();
    return QDir::cleanPath(QDir(from).absoluteFilePath(path));
}

} // namespace interlude
