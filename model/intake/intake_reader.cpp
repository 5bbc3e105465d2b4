#include "model/catalogue/csv_tree.h"
#include "model/catalogue/readers.h"
#include "model/catalogue/text_file.h"
#include "model/intake/intake.h"

#include <QFileInfo>
#include <QSet>

namespace interlude {

namespace {

/// What the entries may refer to, as the shop's catalogue knows it.
void defineCatalogue(Reading& r, const Catalogue& c) {
    const auto define = [&r](Kind kind, const QString& id) { r.define(kind, id, {}, nullptr); };
    for (const Material& m : c.materials) {
        define(Kind::Material, m.id);
        r.defineShared(Kind::MeltFamily, m.meltFamily);
    }
    for (const NozzleType& n : c.nozzleTypes) define(Kind::NozzleType, n.id);
    for (const PrinterType& t : c.fleet.printerTypes) define(Kind::PrinterType, t.id);
    for (const Printer& p : c.fleet.printers) define(Kind::Printer, p.id);
    for (const Place& p : c.fleet.places) define(Kind::Place, p.id);
}

} // namespace

struct IntakeReader::Parts {
    CataloguePtr shops;
    Intake out;
    Reading reading{[](const QString&, Problems&) { return std::optional<QString>(); }};
    YamlNode tree;          ///< the reading knows where things stand in it
    Catalogue read;         ///< the entries of the file as its opening entries
    QSet<int> wrongLines;   ///< of entries that have been complained of
    qsizetype next = 0;     ///< entry to be judged

    const CsvLayout& layout() const {
        return out.kind == EntryKind::Jobs ? jobLayout() : out.kind == EntryKind::Spools ? spoolLayout() : nozzleLayout();
    }
    qsizetype entries() const { return read.openings.jobs.size() + read.openings.spools.size() + read.openings.nozzles.size(); }
    void refuse(const QString& what, const QString& right) { out.problems.append({out.file, 0, 0, what, right}); }

    void readRows(const CsvTable& csv) {
        reading.zone = shops->fleet.zone;
        defineCatalogue(reading, *shops);
        tree = csvTree(reading, out.file, csv, layout());
        read = *shops;
        read.openings = {};
        // An example has gone on since its clock began; what lies in the future is judged by the shop's clock.
        read.fleet.exampleClock.reset();
        switch (out.kind) {
        case EntryKind::Jobs: readJobs(reading, tree, read); break;
        case EntryKind::Spools: readSpools(reading, tree, read); break;
        case EntryKind::Nozzles: {
            Fields top(reading, tree, QStringLiteral("nozzles"));
            readNozzleUnits(reading, top, read);
            break;
        }
        }
        reading.resolve();
        checkMaterials(reading, read);
        checkJobs(reading, read);
        for (const Problem& p : reading.problems())
            if (!p.warning) wrongLines.insert(p.line);
        if (entries() == 0 && out.problems.isEmpty() && reading.problems().isEmpty())
            refuse(QStringLiteral("there is no %1 in it").arg(layout().noun),
                   QStringLiteral("the first line names the columns (%1), each further line is a %2")
                       .arg(columnsOf(out.kind).join(QLatin1Char(',')), layout().noun));
    }

    QStringList stated(Kind kind, const QString& id) const {
        QStringList keys;
        if (const YamlNode* entry = reading.entry(kind, id))
            for (const YamlEntry& e : entry->entries) keys.append(e.key);
        return keys;
    }
    void know(Kind kind, const QString& id, const QStringList& differences) {
        const Where at = reading.where(kind, id, {});
        out.known.append({id, at.line, differences});
        if (differences.isEmpty()) return;
        reading.warn(at, QStringLiteral("%1 `%2` is in the shop already and differs (%3)").arg(nameOf(kind), id, differences.join(QStringLiteral("; "))),
                     QStringLiteral("nothing of it is changed; change it in the window if the file is right"));
    }
    void ask(const Shop& shop, Instant now, Kind kind, const QString& id, const Happening& opening) {
        // What is wrong with a further row of an entry stands on that row's line.
        if (wrongLines.contains(reading.where(kind, id, {}).line) || !reading.sure(kind, id)) return;
        for (const Finding& f : objections(shop, opening, {}, now)) {
            const Where at = reading.where(kind, id, f.place);
            if (f.severity == Severity::Refusal) reading.complain(at, f.reason, f.remedy);
            else reading.warn(at, f.reason, f.remedy);
        }
    }
    template <class Opening, class T>
    void judgeOne(const Shop& shop, Instant now, Kind kind, const T& one, const QString& id, bool known, QList<T>& into) {
        if (known) return know(kind, id, differencesFrom(shop, one, stated(kind, id)));
        ask(shop, now, kind, id, Opening{one});
        if constexpr (std::is_same_v<T, Job>)
            if (one.due && *one.due < now)
                reading.warn(reading.where(kind, id, QStringLiteral("due")),
                             QStringLiteral("job `%1` was due on %2 already").arg(id, toZone(*one.due, shop.catalogue().fleet.zone).toString(QStringLiteral("yyyy-MM-dd HH:mm"))),
                             QStringLiteral("check the date; it counts as late"));
        into.append(one);
    }
    void judgeNext(const Shop& shop, Instant now) {
        const qsizetype i = next++;
        const Openings& o = read.openings;
        switch (out.kind) {
        case EntryKind::Jobs:
            return judgeOne<act::JobOpening>(shop, now, Kind::Job, o.jobs[i], o.jobs[i].id, shop.job(o.jobs[i].id), out.jobs);
        case EntryKind::Spools:
            return judgeOne<act::SpoolOpening>(shop, now, Kind::Spool, o.spools[i], o.spools[i].id, shop.spool(o.spools[i].id), out.spools);
        case EntryKind::Nozzles:
            return judgeOne<act::NozzleOpening>(shop, now, Kind::Nozzle, o.nozzles[i], o.nozzles[i].serial, shop.nozzle(o.nozzles[i].serial), out.nozzles);
        }
    }
};

IntakeReader::IntakeReader(CataloguePtr catalogue, EntryKind kind) : m_parts(std::make_unique<Parts>()) {
    m_parts->shops = std::move(catalogue);
    m_parts->out.kind = kind;
}

IntakeReader::~IntakeReader() = default;

void IntakeReader::read(const QString& name, const QByteArray& bytes, const std::function<bool(double)>& goOn) {
    Parts& p = *m_parts;
    p.out.file = name;
    const auto text = textOf(name, bytes, p.out.problems);
    if (!text) return;
    const auto asked = [&](double share) {
        p.out.stopped = p.out.stopped || (goOn && !goOn(share));
        return !p.out.stopped;
    };
    const CsvTable csv = readCsv(name, *text, p.out.problems, [&](double share) { return asked(share / 2); });
    p.out.rows = static_cast<qsizetype>(csv.records.size());
    if (p.out.rows > mostRowsAtOnce && !p.out.stopped)
        return p.refuse(QStringLiteral("%1 rows are more than can be imported at once").arg(p.out.rows),
                        QStringLiteral("split it into files of at most %1 rows").arg(mostRowsAtOnce));
    if (!asked(0.5)) return;
    p.readRows(csv);
    (void)asked(1);
}

void IntakeReader::readFile(const QString& path, const std::function<bool(double)>& goOn) {
    const QFileInfo info(path);
    m_parts->out.file = info.fileName();
    if (!info.exists()) return m_parts->refuse(QStringLiteral("there is no such file"), QStringLiteral("check the name: %1").arg(path));
    if (!info.isFile()) return m_parts->refuse(QStringLiteral("this is not a file"), QStringLiteral("a table as CSV is wanted"));
    if (info.size() > maxFileBytes)
        return m_parts->refuse(QStringLiteral("the file is larger than 8 MiB"), QStringLiteral("split it into files of at most %1 rows").arg(mostRowsAtOnce));
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return m_parts->refuse(QStringLiteral("the file cannot be opened (%1)").arg(file.errorString()), QStringLiteral("allow this user to read it"));
    read(m_parts->out.file, file.read(maxFileBytes + 1), goOn);
}

bool IntakeReader::judge(const Shop& shop, Instant now, qsizetype most) {
    Parts& p = *m_parts;
    if (p.out.stopped) return false;
    for (; most > 0 && p.next < p.entries(); --most) p.judgeNext(shop, now);
    return p.next < p.entries();
}

double IntakeReader::judged() const {
    const qsizetype all = m_parts->entries();
    return all == 0 ? 1 : static_cast<double>(m_parts->next) / static_cast<double>(all);
}

Intake IntakeReader::take() {
    Intake out = std::move(m_parts->out);
    out.problems += m_parts->reading.takeProblems();
    std::stable_sort(out.problems.begin(), out.problems.end(),
                     [](const Problem& a, const Problem& b) { return std::pair(a.line, a.column) < std::pair(b.line, b.column); });
    if (!out.isGood()) {
        out.jobs.clear();
        out.spools.clear();
        out.nozzles.clear();
    }
    if (out.stopped) {
        out.known.clear();
        out.problems.clear();
    }
    return out;
}

} // namespace interlude
