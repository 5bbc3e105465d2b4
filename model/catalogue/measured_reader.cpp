#include "model/catalogue/csv.h"
#include "model/catalogue/did_you_mean.h"
#include "model/catalogue/readers.h"

#include <QHash>

#include <cmath>

namespace interlude {

namespace {

struct Columns {
    int from = -1, to = -1, minutes = -1, handsOn = -1;
    bool complete() const { return from >= 0 && to >= 0 && minutes >= 0; }
};

Columns columnsOf(Reading& r, const QString& file, const CsvTable& table) {
    static const QStringList names{QStringLiteral("from"), QStringLiteral("to"), QStringLiteral("minutes"),
                                   QStringLiteral("hands-on-minutes")};
    Columns c;
    int* const into[] = {&c.from, &c.to, &c.minutes, &c.handsOn};
    for (std::size_t i = 0; i < table.header.size(); ++i) {
        const CsvField& field = table.header[i];
        const QString name = field.text.trimmed();
        const auto found = names.indexOf(name);
        if (found < 0) {
            const auto near = didYouMean(name, names);
            r.complain({file, field.line, field.column}, QStringLiteral("unknown column `%1`").arg(name.left(60)),
                       near ? QStringLiteral("did you mean `%1`?").arg(*near)
                            : QStringLiteral("the columns are from,to,minutes and, if wanted, hands-on-minutes"));
        } else if (*into[found] >= 0) {
            r.complain({file, field.line, field.column}, QStringLiteral("the column `%1` is there twice").arg(name),
                       QStringLiteral("keep one"));
        } else {
            *into[found] = static_cast<int>(i);
        }
    }
    for (int i = 0; i < 3; ++i)
        if (*into[i] < 0)
            r.complain({file, table.header.front().line, 1},
                       QStringLiteral("the column `%1` is missing").arg(names[i]),
                       QStringLiteral("the first line is from,to,minutes or from,to,minutes,hands-on-minutes"));
    return c;
}

/// A CSV field goes through the same checks as a YAML value.
YamlNode asNode(const QString& file, const CsvField& f) {
    YamlNode n;
    n.kind = YamlNode::Kind::Scalar;
    n.where = {file, f.line, f.column};
    n.text = f.text;
    return n;
}

std::optional<MeasuredChangeover> rowOf(Reading& r, const QString& file, const CsvRecord& record, const Columns& c) {
    const auto node = [&](int column) { return asNode(file, record.fields[static_cast<std::size_t>(column)]); };
    const auto from = textOfValue(r, node(c.from), QStringLiteral("from"), 200);
    const auto to = textOfValue(r, node(c.to), QStringLiteral("to"), 200);
    const auto minutes = numberOf(r, node(c.minutes), QStringLiteral("minutes"), range::minutes());
    std::optional<double> handsOn = minutes;
    if (c.handsOn >= 0) handsOn = numberOf(r, node(c.handsOn), QStringLiteral("hands-on-minutes"), range::minutes());
    if (!from || !to || !minutes || !handsOn) return {};
    if (*handsOn > *minutes) {
        r.complain(node(c.handsOn).where, QStringLiteral("`hands-on-minutes` is greater than `minutes`"),
                   QStringLiteral("it is the first part of them"));
        return {};
    }
    if (*from == *to && *minutes > 0) {
        r.complain(node(c.minutes).where, QStringLiteral("from `%1` to itself is given %2 minutes").arg(*from).arg(*minutes),
                   QStringLiteral("the same setup costs 0; remove the line"));
        return {};
    }
    return MeasuredChangeover{*from, *to, Minutes(static_cast<int>(std::ceil(*minutes))),
                              Minutes(static_cast<int>(std::ceil(*handsOn)))};
}

} // namespace

QList<MeasuredChangeover> readMeasured(Reading& r, const QString& file, const Where& named) {
    const int before = r.errors();
    const auto text = r.text(file);
    if (!text) {
        // Silent when it is absent; anything else has been said.
        if (r.errors() == before)
            r.complain(named, QStringLiteral("the file `%1` is not there").arg(file), QStringLiteral("add it to the fleet folder"));
        return {};
    }
    Problems found;
    const CsvTable table = readCsv(file, *text, found);
    r.complain(found);
    if (table.header.empty()) {
        if (found.isEmpty())
            r.complain({file, 0, 0}, QStringLiteral("the file is empty"),
                       QStringLiteral("the first line is from,to,minutes or from,to,minutes,hands-on-minutes"));
        return {};
    }
    const Columns columns = columnsOf(r, file, table);
    QList<MeasuredChangeover> out;
    if (!columns.complete()) return out;
    QHash<QPair<QString, QString>, int> lines;
    for (const CsvRecord& record : table.records) {
        const auto row = rowOf(r, file, record, columns);
        if (!row) continue;
        const auto pair = qMakePair(row->from, row->to);
        if (const auto first = lines.constFind(pair); first != lines.constEnd()) {
            r.complain({file, record.line, 1}, QStringLiteral("from `%1` to `%2` is there twice").arg(row->from, row->to),
                       QStringLiteral("line %1 has it already; keep one").arg(*first));
            continue;
        }
        lines.insert(pair, record.line);
        out.append(*row);
    }
    return out;
}

} // namespace interlude
