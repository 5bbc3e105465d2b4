#pragma once
// What the window remembers of a person's wishes on this PC: theme, sizes, columns. Nothing of the shop.

#include <QSettings>

#include <memory>

namespace interlude {

/// The settings file of this user (window.ini in the user's configuration folder), opened anew at each call.
std::unique_ptr<QSettings> remembered();

/// Where a file of that name is proposed to be saved: among the person's documents, or at home where there are none.
QString documentsFile(const QString& name);

} // namespace interlude
