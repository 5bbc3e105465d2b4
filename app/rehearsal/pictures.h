#pragma once
// Pictures of every tab and of the wall view, in both themes and in two sizes, of the window as it stands at a moment of the
// rehearsal.

#include "model/shop/workbench.h"

#include <QDir>

namespace interlude::app {

class Pictures {
public:
    /// `bench` is borrowed. Files go to `dir`.
    Pictures(Workbench& bench, QString who, QDir dir);
    /// `moment` begins the file names: before-today-light-1366x768.png. Returns how many were taken.
    Outcome<int> take(const QString& moment, const PrinterId& printer);

private:
    Workbench& m_bench;
    QString m_who;
    QDir m_dir;
};

} // namespace interlude::app
