#include "model/catalogue/csv_tree.h"

#include "model/catalogue/did_you_mean.h"

#include <QRegularExpression>

#include <algorithm>
#include <utility>

namespace interlude {

namespace {

QStringList words(const char* spaced) { return QString::fromLatin1(spaced).split(QLatin1Char(' ')); }

YamlNode nodeOf(YamlNode::Kind kind, const Where& at, const QString& text = {}) {
    YamlNode n;
    n.kind = kind;
    n.text = text;
    n.where = at;
    return n;
}

YamlNode scalar(const QString& text, const Where& at) { return nodeOf(YamlNode::Kind::Scalar, at, text); }

YamlNode listOf(const QString& text, const QRegularExpression& between, const Where& at) {
    YamlNode n = nodeOf(YamlNode::Kind::Sequence, at);
    for (const QString& part : text.split(between, Qt::SkipEmptyParts)) n.items.push_back(scalar(part.trimmed(), at));
    return n;
}

YamlNode broken(Reading& r, const Where& at, const QString& key, const QString& text, const QString& right) {
    r.complain(at, QStringLiteral("`%1` is `%2`").arg(key, text.left(64)), right);
    return nodeOf(YamlNode::Kind::Broken, at);
}

/// Hours and minutes, as a spreadsheet shows a duration; but `5: 60` may be the minutes of a printer 5.
std::optional<int> minutesOfClock(const Reading& r, const QString& text) {
    static const QRegularExpression clock(QStringLiteral("^([0-9]{1,4}):([0-5][0-9])(?::[0-5][0-9])?$"));
    const auto m = clock.match(text);
    if (!m.hasMatch() || r.exists(Kind::Printer, m.captured(1))) return {};
    return m.captured(1).toInt() * 60 + m.captured(2).toInt();
}

/// A cell as the value of that key in YAML.
YamlNode valueOf(Reading& r, const QString& key, const QString& text, const Where& at) {
    static const QRegularExpression semicolon(QStringLiteral("\\s*;\\s*")), times(QStringLiteral("\\s*[x×]\\s*"));
    if (key == QStringLiteral("printers") && text.contains(QLatin1Char(',')))
        return broken(r, at, key, text, QStringLiteral("separate the printers by semicolons: bay-1; bay-2"));
    if (key == QStringLiteral("printers")) return listOf(text, semicolon, at);
    if (key == QStringLiteral("envelope-mm")) return listOf(text, times, at);
    if (key != QStringLiteral("print-minutes") || !text.contains(QLatin1Char(':'))) return scalar(text, at);
    if (const auto minutes = minutesOfClock(r, text))
        return broken(r, at, key, text, QStringLiteral("give minutes, %1 for hours and minutes").arg(*minutes));
    if (text.contains(QLatin1Char(',')))
        return broken(r, at, key, text, QStringLiteral("separate the printers by semicolons: bay-1: 54; bay-2: 61.5"));
    YamlNode n = nodeOf(YamlNode::Kind::Map, at);
    for (const QString& part : text.split(semicolon, Qt::SkipEmptyParts)) {
        const QString printer = part.section(QLatin1Char(':'), 0, 0).trimmed();
        if (n.find(printer))
            r.complain(at, QStringLiteral("`print-minutes` names `%1` twice").arg(printer.left(64)), QStringLiteral("name each printer once"));
        n.entries.push_back({printer, at, scalar(part.section(QLatin1Char(':'), 1).trimmed(), at)});
    }
    return n;
}

bool sameValue(const YamlNode& a, const YamlNode& b) {
    return a.text == b.text && std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(),
                                          [](const YamlNode& x, const YamlNode& y) { return x.text == y.text; });
}

QStringList columnsOf(const CsvLayout& layout) { return layout.columns + layout.partColumns; }

class Table {
public:
    Table(Reading& reading, const QString& file, const CsvTable& csv, const CsvLayout& layout)
        : m_reading(reading), m_file(file), m_csv(csv), m_layout(layout) {}

    YamlNode tree() {
        YamlNode root = nodeOf(YamlNode::Kind::Map, {m_file, 1, 1});
        YamlNode entries = nodeOf(YamlNode::Kind::Sequence, root.where);
        if (readHeader())
            for (const CsvRecord& record : m_csv.records) addRow(entries, record);
        for (std::size_t i = 0; i < m_parts.size(); ++i)
            entries.items[i].entries.push_back({m_layout.parts, m_parts[i].where, std::move(m_parts[i])});
        root.entries.push_back({m_layout.list, root.where, std::move(entries)});
        return root;
    }

private:
    Where at(const CsvField& f) const { return {m_file, f.line, f.column}; }

    /// Spreadsheets in many countries write semicolons, and some tabs.
    bool separatedOtherwise() {
        if (m_csv.header.size() != 1) return false;
        const QString& line = m_csv.header.front().text;
        const bool semicolons = line.contains(QLatin1Char(';'));
        if (!semicolons && !line.contains(QLatin1Char('\t'))) return false;
        m_reading.complain(at(m_csv.header.front()),
                           QStringLiteral("the columns are separated by %1").arg(semicolons ? QStringLiteral("semicolons") : QStringLiteral("tabs")),
                           QStringLiteral("save the table as CSV with commas"));
        return true;
    }

    /// Not one column is known, or those of another list fit better: one problem says so, not one a column.
    bool headerOfSomethingElse(const QStringList& keys) {
        const auto fits = [&](const CsvLayout& layout) {
            return std::count_if(keys.begin(), keys.end(), [&](const QString& k) { return columnsOf(layout).contains(k); });
        };
        const auto mine = fits(m_layout);
        const Where first = at(m_csv.header.front());
        for (const CsvLayout* other : {&jobLayout(), &spoolLayout(), &nozzleLayout()})
            if (fits(*other) > mine && fits(*other) > 1 && keys.contains(other->id)) {
                m_reading.complain(first, QStringLiteral("these are the columns of %1, not of %2").arg(other->list, m_layout.list),
                                   QStringLiteral("import the file as %1, or take another file").arg(other->list));
                return true;
            }
        const bool near = std::any_of(keys.begin(), keys.end(), [&](const QString& k) { return didYouMean(k, columnsOf(m_layout)).has_value(); });
        if (mine > 0 || near) return false;
        m_reading.complain(first, QStringLiteral("the first line names no column of a %1").arg(m_layout.noun),
                           QStringLiteral("name the columns there; they are %1").arg(columnsOf(m_layout).join(QStringLiteral(", "))));
        return true;
    }

    bool readHeader() {
        if (m_csv.header.empty() || separatedOtherwise()) return false;
        const QStringList known = columnsOf(m_layout);
        QStringList keys, seen;
        for (const CsvField& f : m_csv.header) keys.append(f.text.trimmed().toLower());
        if (headerOfSomethingElse(keys)) return false;
        bool listed = false;
        for (qsizetype i = 0; i < keys.size(); ++i) {
            const CsvField& f = m_csv.header[static_cast<std::size_t>(i)];
            const QString& key = keys[i];
            if (m_layout.told.contains(key)) {
                // our own list comes back
            } else if (!known.contains(key)) {
                complainOfColumn(f, key, std::exchange(listed, true));
            } else if (seen.contains(key)) {
                m_reading.complain(at(f), QStringLiteral("the column `%1` is there twice").arg(key), QStringLiteral("remove one"));
            }
            m_keys.append(known.contains(key) && !seen.contains(key) ? key : QString());
            seen.append(key);
        }
        if (seen.contains(m_layout.id)) return true;
        m_reading.complain({m_file, m_csv.header.front().line, 1}, QStringLiteral("there is no column `%1`").arg(m_layout.id),
                           QStringLiteral("the first line names the columns, one of them is `%1`").arg(m_layout.id));
        return false;
    }

    /// The whole list is said once.
    void complainOfColumn(const CsvField& f, const QString& key, bool listed) {
        const QStringList known = columnsOf(m_layout);
        const auto near = didYouMean(key, known);
        m_reading.complain(at(f), QStringLiteral("there is no column `%1`").arg(f.text.left(64)),
                           near     ? QStringLiteral("did you mean `%1`?").arg(*near)
                           : listed ? QStringLiteral("remove it")
                                    : QStringLiteral("remove it; the columns are %1").arg(known.join(QStringLiteral(", "))));
    }

    void addRow(YamlNode& entries, const CsvRecord& record) {
        const Where here{m_file, record.line, 1};
        YamlNode entry = nodeOf(YamlNode::Kind::Map, here), part = nodeOf(YamlNode::Kind::Map, here);
        QString id;
        for (qsizetype c = 0; c < m_keys.size(); ++c) {
            const CsvField& f = record.fields[static_cast<std::size_t>(c)];
            const QString text = f.text.trimmed();
            if (m_keys[c].isEmpty() || text.isEmpty()) continue;
            if (m_keys[c] == m_layout.id) id = text;
            YamlNode& target = m_layout.partColumns.contains(m_keys[c]) ? part : entry;
            target.entries.push_back({m_keys[c], at(f), valueOf(m_reading, m_keys[c], text, at(f))});
        }
        if (m_layout.parts.isEmpty()) {
            entries.items.push_back(std::move(entry));
            return;
        }
        if (const auto first = m_rows.constFind(id); !id.isEmpty() && first != m_rows.cend()) {
            compare(entries.items[*first], entry);
            m_parts[*first].items.push_back(std::move(part));
            return;
        }
        m_rows.insert(id, entries.items.size());
        m_parts.push_back(nodeOf(YamlNode::Kind::Sequence, here));
        m_parts.back().items.push_back(std::move(part));
        entries.items.push_back(std::move(entry));
    }

    /// A further row of an entry may repeat what it is, and may not contradict it.
    void compare(const YamlNode& begun, const YamlNode& again) {
        for (const YamlEntry& e : again.entries)
            if (const YamlNode* before = begun.find(e.key); !before || !sameValue(*before, e.value))
                m_reading.complain(e.where, QStringLiteral("`%1` is another one than in the %2's first row").arg(e.key, m_layout.noun),
                                   QStringLiteral("leave it empty in further rows; they are %1 of the same %2").arg(m_layout.parts, m_layout.noun));
    }

    Reading& m_reading;
    QString m_file;
    const CsvTable& m_csv;
    const CsvLayout& m_layout;
    QStringList m_keys;                 ///< of each column; empty = not read
    QHash<QString, std::size_t> m_rows; ///< id → its place among the entries
    std::vector<YamlNode> m_parts;      ///< of each entry
};

} // namespace

const CsvLayout& jobLayout() {
    static const CsvLayout layout{
        QStringLiteral("jobs"), QStringLiteral("id"), QStringLiteral("job"),
        words("id title part-number revision order quantity build-file build-sha256 release due late-cost-per-hour "
              "holding-cost-per-hour same-lot printers envelope-mm"),
        QStringLiteral("variants"),
        words("name setup part support part-nozzle support-nozzle chamber-c print-minutes part-cm3 support-cm3"), {QStringLiteral("state")}};
    return layout;
}

const CsvLayout& spoolLayout() {
    static const CsvLayout layout{QStringLiteral("spools"), QStringLiteral("id"), QStringLiteral("spool"),
                                  words("id material lot grams grams-se tare-grams place received opened dried expires"), {}, {}, words("state printer")};
    return layout;
}

const CsvLayout& nozzleLayout() {
    static const CsvLayout layout{QStringLiteral("nozzles"), QStringLiteral("serial"), QStringLiteral("nozzle"),
                                  words("serial type state melt-family run-cm3 run-abrasive-cm3 place"), {}, {}, {QStringLiteral("printer")}};
    return layout;
}

YamlNode csvTree(Reading& reading, const QString& file, const CsvTable& table, const CsvLayout& layout) {
    return Table(reading, file, table, layout).tree();
}

} // namespace interlude
