#include "model/catalogue/reader.h"

#include "model/catalogue/catalogue_hash.h"
#include "model/catalogue/did_you_mean.h"
#include "model/catalogue/readers.h"
#include "model/catalogue/text_file.h"

#include <QDir>
#include <QFileInfo>

namespace interlude {

namespace {

struct FileReader {
    const char* name;
    void (*read)(Reading&, const YamlNode&, Catalogue&);
    struct List {
        const char* key;
        Kind kind;
    };
    QList<List> describes;
};

/// In the order in which they are read and in which their problems are reported: the fleet first, because its time zone
/// and places are needed by the others.
const QList<FileReader>& fileReaders() {
    static const QList<FileReader> all{
        {"fleet.yaml", readFleet,
         {{"printer-types", Kind::PrinterType}, {"printers", Kind::Printer}, {"people", Kind::Person},
          {"places", Kind::Place}, {"tools", Kind::Tool}, {"consumables", Kind::Consumable},
          {"instruments", Kind::Instrument}}},
        {"materials.yaml", readMaterials, {{"materials", Kind::Material}, {"materials", Kind::MeltFamily}}},
        {"nozzles.yaml", readNozzles, {{"nozzle-types", Kind::NozzleType}, {"nozzles", Kind::Nozzle}}},
        {"spools.yaml", readSpools, {{"spools", Kind::Spool}}},
        {"setups.yaml", readSetups, {}},
        {"jobs.yaml", readJobs, {{"jobs", Kind::Job}}},
        {"procedures.yaml", readProcedures, {{"steps", Kind::Step}}},
    };
    return all;
}

int rankOf(const QString& file) {
    const auto& all = fileReaders();
    for (int i = 0; i < all.size(); ++i)
        if (file == QLatin1String(all[i].name)) return i;
    return static_cast<int>(all.size());
}

void putInOrder(Problems& problems) {
    const auto key = [](const Problem& p) { return std::make_tuple(rankOf(p.file), p.file, p.line, p.column); };
    std::stable_sort(problems.begin(), problems.end(), [&](const Problem& a, const Problem& b) { return key(a) < key(b); });
    // Two printers that share a table, or two printer types that share a step, say the same twice.
    problems.erase(std::unique(problems.begin(), problems.end(),
                               [](const Problem& a, const Problem& b) { return a.text() == b.text(); }),
                   problems.end());
}

/// The list is there as a list, or was left out of a file that is otherwise a map.
bool listed(const YamlNode& root, const QString& key) {
    const YamlNode* list = root.find(key);
    return root.kind == YamlNode::Kind::Map && (!list || list->kind == YamlNode::Kind::Sequence);
}

CatalogueReading read(const Reading::Source& source) {
    Reading r(source);
    auto catalogue = std::make_shared<Catalogue>();
    for (const FileReader& file : fileReaders()) {
        const QString name = QString::fromLatin1(file.name);
        const int before = r.errors();
        if (const YamlNode* root = r.yaml(name)) {
            for (const FileReader::List& list : file.describes)
                if (!listed(*root, QString::fromLatin1(list.key))) r.cannotKnow(list.kind);
            file.read(r, *root, *catalogue);
            continue;
        }
        const bool absent = r.errors() == before;
        if (absent && name == QStringLiteral("fleet.yaml"))
            r.complain({name, 0, 0}, QStringLiteral("there is no such file"), QStringLiteral("a fleet folder has at least fleet.yaml"));
        if (!absent || name == QStringLiteral("fleet.yaml"))
            for (const FileReader::List& list : file.describes) r.cannotKnow(list.kind);
    }
    r.resolve();
    checkMaterials(r, *catalogue);
    settleRunningPrints(r, *catalogue);
    checkSetups(r, *catalogue);
    checkJobs(r, *catalogue);
    checkProcedures(r, *catalogue);

    CatalogueReading out;
    out.problems = r.takeProblems();
    putInOrder(out.problems);
    if (r.errors() > 0) return out;
    catalogue->files = r.texts();
    catalogue->hash = catalogueHash(r);
    out.catalogue = std::move(catalogue);
    return out;
}

/// A YAML file that nobody reads is probably a mistyped name.
void warnOfStrangers(const QDir& folder, Problems& problems) {
    QStringList names;
    for (const FileReader& file : fileReaders()) names.append(QString::fromLatin1(file.name));
    for (const QString& name : folder.entryList({QStringLiteral("*.yaml"), QStringLiteral("*.yml")}, QDir::Files, QDir::Name)) {
        if (names.contains(name)) continue;
        const auto near = didYouMean(name, names);
        problems.append({name, 0, 0, QStringLiteral("this file is not read"),
                         near ? QStringLiteral("did you mean `%1`?").arg(*near)
                              : QStringLiteral("the files of a fleet are %1").arg(names.join(QStringLiteral(", "))),
                         true});
    }
}

} // namespace

CatalogueReading readFleetFolder(const QString& path) {
    const QDir folder(path);
    if (!QFileInfo(path).isDir())
        return {{}, {{path, 0, 0, QStringLiteral("there is no such folder"), QStringLiteral("name the folder that holds fleet.yaml")}}};
    CatalogueReading out = read([&](const QString& name, Problems& problems) -> std::optional<QString> {
        if (!QFileInfo(folder.filePath(name)).exists() && !QFileInfo(folder.filePath(name)).isSymLink()) return {};
        return readTextFile(path, name, problems);
    });
    warnOfStrangers(folder, out.problems);
    putInOrder(out.problems);
    return out;
}

CatalogueReading readFleetTexts(const QMap<QString, QString>& files) {
    return read([&](const QString& name, Problems& problems) -> std::optional<QString> {
        const auto found = files.constFind(name);
        // The same door as for bytes, so that a text can do nothing that a file could not.
        return found == files.constEnd() ? std::nullopt : textOf(name, found->toUtf8(), problems);
    });
}

} // namespace interlude
