#pragma once
// One thing wrong with a fleet folder, said as `file:line:column: what is wrong; what would be right`.

#include <QList>
#include <QString>

namespace interlude {

struct Problem {
    QString file;   ///< relative to the fleet folder
    int line = 0;   ///< from 1; 0 when the problem is about the whole file
    int column = 0; ///< from 1
    QString what;
    QString right;
    bool warning = false; ///< a warning is reported but does not refuse the folder (e.g. a support that softens)

    QString text() const {
        QString where = file;
        if (line > 0) where += QStringLiteral(":%1:%2").arg(line).arg(column);
        return where + (warning ? QStringLiteral(": warning: ") : QStringLiteral(": ")) + what +
               (right.isEmpty() ? QString() : QStringLiteral("; ") + right);
    }
};

using Problems = QList<Problem>;

} // namespace interlude
