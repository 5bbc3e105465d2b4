#include "views/bench/remembered.h"

#include <QStandardPaths>

namespace interlude {

std::unique_ptr<QSettings> remembered() {
    // Through QStandardPaths so that tests and rehearsals, which redirect it, leave a person's own settings alone.
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::GenericConfigLocation);
    return std::make_unique<QSettings>(folder + QStringLiteral("/interlude/window.ini"), QSettings::IniFormat);
}

} // namespace interlude
