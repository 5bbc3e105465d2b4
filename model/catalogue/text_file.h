#pragma once
// Bytes of one file → text, or the problems that make it unreadable as text.

#include "model/catalogue/problem.h"

#include <QByteArray>

#include <optional>

namespace interlude {

/// A file greater than this is refused unread.
inline constexpr qint64 maxFileBytes = 8 * 1024 * 1024;

/// UTF-8 with or without a byte order mark; line ends LF, CRLF or CR, kept as they are. Refuses other encodings,
/// control characters and further byte order marks, naming the first of them.
std::optional<QString> textOf(const QString& file, const QByteArray& bytes, Problems& problems);

/// Reads `folder`/`name`; a missing, unreadable, oversized or binary file is a problem. `name` is as messages show it.
std::optional<QString> readTextFile(const QString& folder, const QString& name, Problems& problems);

/// Line ends as LF, which is what the readers count.
QString withPlainLineEnds(QString text);

} // namespace interlude
