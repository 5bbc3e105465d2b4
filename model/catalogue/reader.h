#pragma once
// Fleet folder → catalogue. Reports every problem at once and then refuses the folder whole.

#include "model/catalogue/catalogue.h"

namespace interlude {

struct CatalogueReading {
    CataloguePtr catalogue; ///< null when any problem is not a warning
    Problems problems;      ///< in order of file, line, column; warnings included
};

/// Reads the folder at `path`. Never throws; a folder that is not there is a problem like any other.
CatalogueReading readFleetFolder(const QString& path);
/// The same from texts (name → content), as they are kept in the ledger.
CatalogueReading readFleetTexts(const QMap<QString, QString>& files);

} // namespace interlude
