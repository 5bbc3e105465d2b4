#pragma once
// RFC 4180: fields separated by commas, records by line ends (CRLF, and LF or CR alone), quotes around fields that hold a
// comma, a quote (doubled) or a line end. The first record names the columns.

#include "model/catalogue/problem.h"

#include <QString>
#include <QStringList>

#include <functional>
#include <vector>

namespace interlude {

struct CsvField {
    QString text;
    int line = 0, column = 0; ///< where it begins, from 1
};
struct CsvRecord {
    std::vector<CsvField> fields;
    int line = 0;
};
struct CsvTable {
    std::vector<CsvField> header;
    std::vector<CsvRecord> records; ///< each with exactly as many fields as the header
};

/// Reads a whole table. A record with another number of fields than the header is a problem and left out; a quote out of
/// place is a problem after which reading ends, because nothing that follows would be certain. Blank lines are skipped.
/// `goOn` is asked now and then with the share read so far, 0 to 1; when it says no, what was read so far is the answer.
CsvTable readCsv(const QString& file, const QString& text, Problems& problems,
                 const std::function<bool(double)>& goOn = {});

/// One field as it must be written: quoted where needed, and never read as a formula by a spreadsheet (a leading = + - @
/// that does not begin a number gets an apostrophe in front).
QString csvField(const QString& text);
/// One record, ended by CRLF, in UTF-8.
QByteArray csvLine(const QStringList& fields);

} // namespace interlude
