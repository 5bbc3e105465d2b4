#pragma once
// Is an export still what was written? Compares each file with the list of sums that lies beside it. That says nothing about
// who wrote both: whether the record comes from a shop's ledger, its hash tells (`verification.h`).

#include "model/findings/finding.h"

#include <QDateTime>

namespace interlude {

/// Names of the files of an export bundle, as they are written and as they are read.
namespace bundle {
inline const QString recordPdf = QStringLiteral("record.pdf");
inline const QString recordJson = QStringLiteral("record.interlude.json");
inline const QString sums = QStringLiteral("sha256sums.txt");
} // namespace bundle

enum class FileState {
    Fits,
    Changed,   ///< its sum is another
    Missing,   ///< the list names it, it is not there
    Unreadable,
    NotListed  ///< it is there, the list does not name it
};

struct CheckedFile {
    QString name; ///< below the folder
    FileState state = FileState::Fits;
};

struct BundleCheck {
    QString folder;
    QList<CheckedFile> files; ///< in the order of the list; after them what is not listed
    /// What the record says of itself, a line each: session, printer, shop … Empty in a folder of several records.
    QStringList about;
    QString ledgerHash; ///< as `comparePrinted` takes it; empty where the record has none

    /// Each file that the list names is there and unchanged.
    bool fits() const;
};

/// `path`: the folder of a bundle or of a whole export, or one of the files in it. Refused (`bundle`) when there is no list of
/// sums, or a line of it is none, or names a file outside the folder.
Outcome<BundleCheck> checkBundle(const QString& path);

/// True for what `checkBundle` takes rather than a fleet: a folder with a list of sums and without fleet.yaml, or the JSON
/// of a record.
bool isBundle(const QString& path);

/// "record.pdf: unchanged" and the like.
QString sentence(const CheckedFile& file);
/// The result in one sentence.
QString sentence(const BundleCheck& check);

} // namespace interlude
