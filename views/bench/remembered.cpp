#include "views/bench/remembered.h"

#include <QDir>
#include <QStandardPaths>

namespace interlude {

std::unique_ptr<QSettings> remembered() {
    // Through QStandardPaths so that tests and rehearsals, which redirect it, leave a person's own settings alone.
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::GenericConfigLocation);
    return std::make_unique<QSettings>(folder + QStringLiteral("/interlude/window.ini"), QSettings::IniFormat);
}

QString documentsFile(const QString& name) {
    const QDir documents(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation));
    return (documents.exists() ? documents : QDir::home()).filePath(name);
}

} // namespace interlude
