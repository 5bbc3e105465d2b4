#include "app/verbs/opened_shop.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>

namespace interlude::app {

int newFleet(const QString& folder, const Tell& tell) {
    const QFileInfo there(folder);
    if (there.exists() && (!there.isDir() || !QDir(folder).isEmpty())) {
        tell(QStringLiteral("%1 is there already and not empty; name a new folder").arg(folder));
        return 1;
    }
    if (!QDir().mkpath(folder)) {
        tell(QStringLiteral("%1 cannot be made; choose a place where you may write").arg(folder));
        return 1;
    }
    QDirIterator files(QStringLiteral(":/new-fleet"), QDir::Files);
    bool any = false;
    while (files.hasNext()) {
        QFile from(files.next());
        QFile to(QDir(folder).filePath(files.fileName()));
        if (!from.open(QIODevice::ReadOnly) || !to.open(QIODevice::WriteOnly) || to.write(from.readAll()) < 0 ||
            !to.flush()) {
            tell(QStringLiteral("%1 cannot be written: %2").arg(to.fileName(), to.errorString()));
            return 1;
        }
        any = true;
    }
    if (!any) {
        tell(QStringLiteral("interlude: the folder to start from is not built into this program"));
        return 3;
    }
    return 0;
}

int newFleet(const QString& folder) {
    if (const int wrong = newFleet(folder, complain)) return wrong;
    for (const QString& name : QDir(folder).entryList(QDir::Files)) say(QDir(folder).filePath(name));
    say(QStringLiteral("Its numbers are examples: put your own shop's in, then `interlude check %1`.").arg(folder));
    return 0;
}

} // namespace interlude::app
