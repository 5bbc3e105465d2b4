#include "views/plan/job_import.h"

#include "model/catalogue/csv.h"
#include "model/catalogue/did_you_mean.h"
#include "model/catalogue/readers.h"
#include "model/catalogue/text_file.h"
#include "views/bench/bench.h"

#include <QRegularExpression>
#include <QSignalBlocker>

namespace interlude {

namespace {

const QStringList& ofJob() {
    static const QStringList keys{
        QStringLiteral("id"), QStringLiteral("title"), QStringLiteral("part-number"), QStringLiteral("revision"),
        QStringLiteral("order"), QStringLiteral("quantity"), QStringLiteral("build-file"), QStringLiteral("build-sha256"),
        QStringLiteral("release"), QStringLiteral("due"), QStringLiteral("late-cost-per-hour"),
        QStringLiteral("holding-cost-per-hour"), QStringLiteral("same-lot"), QStringLiteral("printers"),
        QStringLiteral("envelope-mm")};
    return keys;
}

const QStringList& ofVariant() {
    static const QStringList keys{QStringLiteral("name"), QStringLiteral("setup"), QStringLiteral("part"),
                                  QStringLiteral("support"), QStringLiteral("part-nozzle"), QStringLiteral("support-nozzle"),
                                  QStringLiteral("chamber-c"), QStringLiteral("print-minutes"), QStringLiteral("part-cm3"),
                                  QStringLiteral("support-cm3")};
    return keys;
}

YamlNode scalar(const QString& text, const Where& at) {
    YamlNode n;
    n.kind = YamlNode::Kind::Scalar;
    n.text = text;
    n.where = at;
    return n;
}

YamlNode empty(YamlNode::Kind kind, const Where& at) {
    YamlNode n;
    n.kind = kind;
    n.where = at;
    return n;
}

YamlNode listOf(const QString& text, const QRegularExpression& between, const Where& at) {
    YamlNode n = empty(YamlNode::Kind::Sequence, at);
    for (const QString& part : text.split(between, Qt::SkipEmptyParts)) n.items.push_back(scalar(part.trimmed(), at));
    return n;
}

/// A cell as the value of that key in jobs.yaml.
YamlNode valueOf(const QString& key, const QString& text, const Where& at) {
    static const QRegularExpression semicolon(QStringLiteral("\\s*;\\s*")), times(QStringLiteral("\\s*[x×]\\s*"));
    if (key == QStringLiteral("printers")) return listOf(text, semicolon, at);
    if (key == QStringLiteral("envelope-mm")) return listOf(text, times, at);
    if (key != QStringLiteral("print-minutes") || !text.contains(QLatin1Char(':'))) return scalar(text, at);
    YamlNode n = empty(YamlNode::Kind::Map, at);
    for (const QString& part : text.split(semicolon, Qt::SkipEmptyParts))
        n.entries.push_back({part.section(QLatin1Char(':'), 0, 0).trimmed(), at, scalar(part.section(QLatin1Char(':'), 1).trimmed(), at)});
    return n;
}

/// The rows of a CSV as the tree that jobs.yaml would have given.
class Table {
public:
    Table(Reading& reading, const Shop& shop, const QString& name, const CsvTable& csv)
        : m_reading(reading), m_shop(shop), m_name(name), m_csv(csv) {}

    YamlNode tree() {
        YamlNode root = empty(YamlNode::Kind::Map, {m_name, 1, 1});
        YamlNode jobs = empty(YamlNode::Kind::Sequence, {m_name, 1, 1});
        if (readHeader())
            for (const CsvRecord& record : m_csv.records) addRow(jobs, record);
        for (YamlNode& job : jobs.items) finish(job);
        root.entries.push_back({QStringLiteral("jobs"), root.where, std::move(jobs)});
        return root;
    }

private:
    Where at(const CsvField& f) const { return {m_name, f.line, f.column}; }

    bool readHeader() {
        const QStringList known = ofJob() + ofVariant();
        QStringList seen;
        for (const CsvField& f : m_csv.header) {
            const QString key = f.text.trimmed().toLower();
            if (!known.contains(key)) {
                const auto near = didYouMean(key, known);
                m_reading.complain(at(f), QStringLiteral("there is no column `%1`").arg(f.text.left(64)),
                                   near ? QStringLiteral("did you mean `%1`?").arg(*near)
                                        : QStringLiteral("the columns are %1").arg(known.join(QStringLiteral(", "))));
            } else if (seen.contains(key)) {
                m_reading.complain(at(f), QStringLiteral("the column `%1` is there twice").arg(key), QStringLiteral("remove one"));
            }
            seen.append(key);
            m_keys.append(known.contains(key) ? key : QString());
        }
        if (seen.contains(QStringLiteral("id"))) return true;
        if (!seen.isEmpty()) m_reading.complain({m_name, 1, 1}, QStringLiteral("there is no column `id`"), QStringLiteral("the first line names the columns"));
        return false;
    }

    void addRow(YamlNode& jobs, const CsvRecord& record) {
        QString id;
        YamlNode job = empty(YamlNode::Kind::Map, {m_name, record.line, 1});
        YamlNode variant = empty(YamlNode::Kind::Map, {m_name, record.line, 1});
        for (qsizetype c = 0; c < m_keys.size(); ++c) {
            const CsvField& f = record.fields[static_cast<std::size_t>(c)];
            const QString text = f.text.trimmed();
            if (m_keys[c].isEmpty() || text.isEmpty()) continue;
            if (m_keys[c] == QStringLiteral("id")) id = text;
            YamlNode& target = ofJob().contains(m_keys[c]) ? job : variant;
            target.entries.push_back({m_keys[c], at(f), valueOf(m_keys[c], text, at(f))});
        }
        const auto first = id.isEmpty() ? m_rows.cend() : m_rows.constFind(id);
        if (first != m_rows.cend()) {
            YamlNode& begun = jobs.items[*first];
            compare(begun, job);
            m_variants[*first].items.push_back(std::move(variant));
            return;
        }
        if (m_shop.job(id))
            m_reading.complain(job.where, QStringLiteral("job `%1` is in the shop already").arg(id),
                               QStringLiteral("give it another id, or change the job there"));
        m_rows.insert(id, jobs.items.size());
        YamlNode list = empty(YamlNode::Kind::Sequence, variant.where);
        list.items.push_back(std::move(variant));
        m_variants.push_back(std::move(list));
        m_order.push_back(jobs.items.size());
        jobs.items.push_back(std::move(job));
    }

    /// A further row of a job may repeat what it is, and may not contradict it.
    void compare(const YamlNode& begun, const YamlNode& again) {
        for (const YamlEntry& e : again.entries) {
            const YamlNode* before = begun.find(e.key);
            const auto same = [](const YamlNode& a, const YamlNode& b) {
                return a.text == b.text && std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(),
                                                      [](const YamlNode& x, const YamlNode& y) { return x.text == y.text; });
            };
            if (!before || !same(*before, e.value))
                m_reading.complain(e.where, QStringLiteral("`%1` is another one than in the job's first row").arg(e.key),
                                   QStringLiteral("leave it empty in further rows; they are variants of the same job"));
        }
    }

    void finish(YamlNode& job) {
        const std::size_t index = m_order[m_finished++];
        YamlNode& variants = m_variants[index];
        job.entries.push_back({QStringLiteral("variants"), variants.where, std::move(variants)});
    }

    Reading& m_reading;
    const Shop& m_shop;
    QString m_name;
    const CsvTable& m_csv;
    QStringList m_keys;
    QHash<QString, std::size_t> m_rows; ///< job id → its place
    std::vector<YamlNode> m_variants;
    std::vector<std::size_t> m_order;
    std::size_t m_finished = 0;
};

/// What the jobs may refer to, as the shop's catalogue knows it.
void defineCatalogue(Reading& r, const Catalogue& c) {
    const auto define = [&r](Kind kind, const QString& id) { r.define(kind, id, {}, nullptr); };
    for (const Material& m : c.materials) define(Kind::Material, m.id);
    for (const NozzleType& n : c.nozzleTypes) define(Kind::NozzleType, n.id);
    for (const PrinterType& t : c.fleet.printerTypes) define(Kind::PrinterType, t.id);
    for (const Printer& p : c.fleet.printers) define(Kind::Printer, p.id);
}

} // namespace

QStringList jobColumns() {
    return ofJob() + ofVariant();
}

JobImport readJobsCsv(const Shop& shop, const QString& name, const QByteArray& bytes) {
    JobImport out;
    const auto text = textOf(name, bytes, out.problems);
    if (!text) return out;
    const CsvTable csv = readCsv(name, *text, out.problems);
    out.rows = static_cast<int>(csv.records.size());
    if (out.rows > mostJobsAtOnce) {
        out.problems.append({name, 0, 0, QStringLiteral("%1 rows are more than can be imported at once").arg(out.rows),
                             QStringLiteral("split it into files of at most %1 rows").arg(mostJobsAtOnce)});
        return out;
    }
    Reading r([](const QString&, Problems&) { return std::optional<QString>(); });
    r.zone = shop.catalogue().fleet.zone;
    defineCatalogue(r, shop.catalogue());
    Catalogue into = shop.catalogue();
    into.openings.jobs.clear();
    const YamlNode root = Table(r, shop, name, csv).tree();
    readJobs(r, root, into);
    r.resolve();
    checkJobs(r, into);
    out.problems += r.takeProblems();
    if (out.problems.isEmpty() && into.openings.jobs.isEmpty())
        out.problems.append({name, 0, 0, QStringLiteral("there is no job in it"),
                             QStringLiteral("the first line names the columns (%1), each further line is a job").arg(jobColumns().join(QLatin1Char(',')))});
    std::stable_sort(out.problems.begin(), out.problems.end(),
                     [](const Problem& a, const Problem& b) { return std::pair(a.line, a.column) < std::pair(b.line, b.column); });
    const bool wrong = std::any_of(out.problems.begin(), out.problems.end(), [](const Problem& p) { return !p.warning; });
    if (!wrong) out.jobs = into.openings.jobs;
    return out;
}

Outcome<int> enterJobs(Bench& bench, const QList<Job>& jobs, const std::function<void(int)>& progress) {
    // All are judged before the first is entered, so that nothing is imported by halves.
    for (const Job& job : jobs) {
        const Findings against = refusalsIn(bench.workbench().objections(act::JobAdded{job}, bench.who()));
        if (!against.isEmpty()) return tl::unexpected(against.front());
    }
    int done = 0;
    std::optional<Finding> broken;
    {
        // The window would redraw for every job.
        const QSignalBlocker quiet(bench);
        for (const Job& job : jobs) {
            const auto entered = bench.workbench().perform(act::JobAdded{job}, bench.who());
            if (!entered) {
                broken = entered.error();
                break;
            }
            if (++done % 50 == 0 && progress) progress(done);
        }
    }
    if (done > 0) Q_EMIT bench.changed();
    if (!broken) return done;
    // Only the storage can fail here (a full disk): what is in the ledger stays there.
    broken->reason = QStringLiteral("%1 of %2 jobs are entered, then: %3").arg(done).arg(jobs.size()).arg(broken->reason);
    return tl::unexpected(*broken);
}

} // namespace interlude
