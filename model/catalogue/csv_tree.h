#pragma once
// The rows of a CSV as the tree that the YAML file would have given, so that one reader judges both, with the same messages.

#include "model/catalogue/csv.h"
#include "model/catalogue/reading.h"

namespace interlude {

/// Which columns a table has; they are named like the keys of the YAML file.
struct CsvLayout {
    QString list; ///< key of the list in the YAML file: `jobs`
    QString id;   ///< column that names an entry: `id`, `serial`
    QString noun; ///< one entry in words: "job"
    QStringList columns; ///< of an entry, in the order in which a person would write them
    /// Where further rows with the same id add to the entry: the key of what they add to, and the columns of each.
    QString parts;
    QStringList partColumns;
    /// What the shop's own lists say after these, and what is not read: only the ledger knows it.
    QStringList told;
};

/// Jobs: each row is a variant, further rows with the same id are further variants. `print-minutes` is a number or
/// `bay-1: 54; bay-2: 61`; `printers` are separated by semicolons; `envelope-mm` is `120 x 80 x 60`.
const CsvLayout& jobLayout();
/// Spools and nozzles: one row each; an empty cell is a key left out.
const CsvLayout& spoolLayout();
const CsvLayout& nozzleLayout();

/// A map with the list of the layout. Complains of a header that cannot be; then the list is empty.
YamlNode csvTree(Reading& reading, const QString& file, const CsvTable& table, const CsvLayout& layout);

} // namespace interlude
