#pragma once
// A CSV (RFC 4180) of jobs, spools or nozzles before it is imported: what would come in, what is there already, and
// everything that stands against it. The columns are the keys of the YAML files, and the rows are judged by the same
// readers. Nothing here changes the shop; `actOf` gives the one act that does.
//
//   serial,type,state,melt-family,run-cm3,place              id,material,lot,grams,place,opened
//   N-031,h04,used,polyamides,412,rack-a                     S-12,pc-ivory,L2207,640,cabinet-1,2026-02-20T08:00

#include "model/catalogue/problem.h"
#include "model/shop/shop.h"

namespace interlude {

enum class EntryKind { Jobs, Spools, Nozzles };
/// "jobs", "spools", "nozzles".
QString wordOf(EntryKind kind);
std::optional<EntryKind> entryKindOf(const QString& word);
/// "job", "spool", "nozzle".
QString nounOf(EntryKind kind);
/// "1 job", "12 spools".
QString countOf(qsizetype n, EntryKind kind);
struct CsvLayout;
/// How its table is laid out (`csv_tree.h`).
const CsvLayout& layoutOf(EntryKind kind);
/// Columns that are read, in the order in which a person would write them.
QStringList columnsOf(EntryKind kind);

/// An entry whose id is in the shop already. It is never applied.
struct KnownEntry {
    QString id;
    int line = 0;
    QStringList differences; ///< "lot: L2207 in the file, L2208 in the shop"; empty = unchanged
};

struct Intake {
    EntryKind kind = EntryKind::Jobs;
    QString file;
    qsizetype rows = 0; ///< records after the header
    /// The new entries, of one kind; empty when anything stands against the file.
    QList<Job> jobs;
    QList<Spool> spools;
    QList<Nozzle> nozzles;
    QList<KnownEntry> known; ///< in the order of the file
    Problems problems;       ///< all at once, in the order of the file; warnings do not stop the import
    bool stopped = false;    ///< a person did not want to wait; then everything else is empty

    qsizetype count() const { return jobs.size() + spools.size() + nozzles.size(); }
    qsizetype errors() const;
    qsizetype differing() const;
    /// Nothing stands against the file. There may be nothing new in it.
    bool isGood() const { return !stopped && errors() == 0; }
};

/// More rows than this are refused: one event must stay of a size that is written and read at once.
inline constexpr qsizetype mostRowsAtOnce = 10'000;

/// Reads in two parts, so that a window can go on living: the file against the catalogue on any thread, then its entries
/// against the shop on the shop's own.
class IntakeReader {
public:
    IntakeReader(CataloguePtr catalogue, EntryKind kind);
    ~IntakeReader();

    /// `name` is as messages show it. `goOn` is asked now and then with the share done, 0 to 1; when it says no, the reading
    /// is stopped.
    void read(const QString& name, const QByteArray& bytes, const std::function<bool(double)>& goOn = {});
    /// The same of a file; one that cannot be read is a problem like any other.
    void readFile(const QString& path, const std::function<bool(double)>& goOn = {});

    /// Judges up to `most` further entries; false when all have been.
    bool judge(const Shop& shop, Instant now, qsizetype most);
    /// Share of the entries judged, 0 to 1.
    double judged() const;
    /// What came of it, once all are judged. To be called once.
    Intake take();

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

/// Both parts at once.
Intake readIntake(const Shop& shop, Instant now, EntryKind kind, const QString& name, const QByteArray& bytes,
                  const std::function<bool(double)>& goOn = {});
Intake readIntakeFile(const Shop& shop, Instant now, EntryKind kind, const QString& path);

/// Imports all of it. To be performed only while `isGood` and when something is new.
act::Imported actOf(const Intake& intake);

/// How an entry differs from the one in the shop, as far as the entry states it. What use changes (grams left, place, run
/// volume, exposure) is compared with what was stated when it came in, or not at all.
QStringList differencesFrom(const Shop& shop, const Job& job, const QStringList& stated);
QStringList differencesFrom(const Shop& shop, const Spool& spool, const QStringList& stated);
QStringList differencesFrom(const Shop& shop, const Nozzle& nozzle, const QStringList& stated);

} // namespace interlude
