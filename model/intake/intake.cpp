#include "model/intake/intake.h"

#include "model/catalogue/csv_tree.h"

namespace interlude {

const CsvLayout& layoutOf(EntryKind kind) {
    switch (kind) {
    case EntryKind::Jobs: return jobLayout();
    case EntryKind::Spools: return spoolLayout();
    case EntryKind::Nozzles: break;
    }
    return nozzleLayout();
}

qsizetype Intake::errors() const {
    return std::count_if(problems.begin(), problems.end(), [](const Problem& p) { return !p.warning; });
}

qsizetype Intake::differing() const {
    return std::count_if(known.begin(), known.end(), [](const KnownEntry& k) { return !k.differences.isEmpty(); });
}

QString wordOf(EntryKind kind) { return layoutOf(kind).list; }
QString nounOf(EntryKind kind) { return layoutOf(kind).noun; }

std::optional<EntryKind> entryKindOf(const QString& word) {
    for (const EntryKind kind : {EntryKind::Jobs, EntryKind::Spools, EntryKind::Nozzles})
        if (word == wordOf(kind)) return kind;
    return {};
}

QString countOf(qsizetype n, EntryKind kind) { return QStringLiteral("%1 %2").arg(n).arg(n == 1 ? nounOf(kind) : wordOf(kind)); }

QStringList columnsOf(EntryKind kind) { return layoutOf(kind).columns + layoutOf(kind).partColumns; }

Intake readIntake(const Shop& shop, Instant now, EntryKind kind, const QString& name, const QByteArray& bytes,
                  const std::function<bool(double)>& goOn) {
    IntakeReader reader(shop.cataloguePtr(), kind);
    reader.read(name, bytes, goOn);
    while (reader.judge(shop, now, mostRowsAtOnce)) {}
    return reader.take();
}

Intake readIntakeFile(const Shop& shop, Instant now, EntryKind kind, const QString& path) {
    IntakeReader reader(shop.cataloguePtr(), kind);
    reader.readFile(path);
    while (reader.judge(shop, now, mostRowsAtOnce)) {}
    return reader.take();
}

act::Imported actOf(const Intake& intake) { return {intake.file, intake.spools, intake.nozzles, intake.jobs}; }

} // namespace interlude
