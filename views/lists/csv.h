#pragma once
// Rows as text: RFC 4180 for files, tab-separated for the clipboard.

#include "model/findings/finding.h"

#include <QList>
#include <QStringList>

namespace interlude::lists {

/// RFC 4180: CRLF ends every record; a field with comma, quote or line break is quoted, quotes doubled.
QString csvOf(const QList<QStringList>& rows);
/// One line per row; tabs and line breaks inside a field become spaces. No line end after the last row.
QString tsvOf(const QList<QStringList>& rows);
/// Writes UTF-8, whole or not at all. Returns the number of records after the header. Refused (`csv-file`) when the file
/// cannot be written.
Outcome<int> writeCsv(const QList<QStringList>& rows, const QString& file);

} // namespace interlude::lists
