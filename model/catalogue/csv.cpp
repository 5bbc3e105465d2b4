#include "model/catalogue/csv.h"

#include "model/catalogue/text_file.h"

#include <optional>

namespace interlude {

namespace {

class CsvScanner {
public:
    CsvScanner(const QString& file, const QString& text, Problems& problems)
        : m_file(file), m_text(withPlainLineEnds(text)), m_problems(problems) {}

    bool atEnd() const { return m_at >= m_text.size(); }
    double share() const { return static_cast<double>(m_at) / static_cast<double>(m_text.size()); }

    /// The next record; empty after a quote out of place.
    std::optional<CsvRecord> record() {
        CsvRecord out;
        out.line = m_line;
        for (;;) {
            CsvField field{{}, m_line, m_column};
            if (!(peek() == QLatin1Char('"') ? quoted(field) : plain(field))) return {};
            out.fields.push_back(std::move(field));
            if (peek() != QLatin1Char(',')) break;
            step();
        }
        if (!atEnd()) step();
        return out;
    }

private:
    QChar peek(qsizetype ahead = 0) const {
        return m_at + ahead < m_text.size() ? m_text[m_at + ahead] : QChar(u'\n');
    }
    void step() {
        const QChar c = m_text[m_at++];
        if (c == QLatin1Char('\n')) {
            ++m_line;
            m_column = 1;
        } else if (!c.isLowSurrogate()) {
            ++m_column;
        }
    }
    void complain(int line, int column, const QString& what, const QString& right) {
        m_problems.append({m_file, line, column, what, right});
    }
    bool plain(CsvField& field) {
        const qsizetype begin = m_at;
        for (; !atEnd() && peek() != QLatin1Char(',') && peek() != QLatin1Char('\n'); step()) {
            if (peek() != QLatin1Char('"')) continue;
            complain(m_line, m_column, QStringLiteral("a quote inside a field that is not quoted"),
                     QStringLiteral("quote the whole field and double the quotes in it"));
            return false;
        }
        field.text = m_text.mid(begin, m_at - begin);
        return true;
    }
    bool quoted(CsvField& field) {
        const int line = m_line, column = m_column;
        for (step(); !atEnd(); step()) {
            if (peek() != QLatin1Char('"')) {
                field.text += peek();
                continue;
            }
            if (peek(1) == QLatin1Char('"') && m_at + 1 < m_text.size()) {
                step();
                field.text += QLatin1Char('"');
                continue;
            }
            step();
            if (atEnd() || peek() == QLatin1Char(',') || peek() == QLatin1Char('\n')) return true;
            complain(m_line, m_column, QStringLiteral("something follows the closing quote"),
                     QStringLiteral("a comma or the end of the line is wanted here"));
            return false;
        }
        complain(line, column, QStringLiteral("this quote is never closed"), QStringLiteral("close it, or remove it"));
        return false;
    }

    QString m_file, m_text;
    Problems& m_problems;
    qsizetype m_at = 0;
    int m_line = 1, m_column = 1;
};

bool blank(const CsvRecord& r) {
    return r.fields.size() == 1 && r.fields.front().text.trimmed().isEmpty();
}

} // namespace

CsvTable readCsv(const QString& file, const QString& text, Problems& problems, const std::function<bool(double)>& goOn) {
    CsvTable table;
    CsvScanner scanner(file, text, problems);
    for (int n = 1; !scanner.atEnd(); ++n) {
        if (goOn && n % 1000 == 0 && !goOn(scanner.share())) break;
        auto record = scanner.record();
        if (!record) break;
        if (blank(*record)) continue;
        if (table.header.empty()) {
            table.header = std::move(record->fields);
        } else if (record->fields.size() != table.header.size()) {
            problems.append({file, record->line, 1,
                             QStringLiteral("this record has %1 fields").arg(record->fields.size()),
                             QStringLiteral("the header names %1").arg(table.header.size())});
        } else {
            table.records.push_back(std::move(*record));
        }
    }
    return table;
}

QString csvField(const QString& text) {
    QString out = text;
    bool number = false;
    text.toDouble(&number);
    if (!number && !text.isEmpty() && QStringLiteral("=+-@\t\r").contains(text.front())) out.prepend(QLatin1Char('\''));
    for (const QChar c : {QLatin1Char(','), QLatin1Char('"'), QLatin1Char('\n'), QLatin1Char('\r')})
        if (out.contains(c))
            return QLatin1Char('"') + out.replace(QLatin1Char('"'), QStringLiteral("\"\"")) + QLatin1Char('"');
    return out;
}

QByteArray csvLine(const QStringList& fields) {
    QStringList written;
    for (const QString& f : fields) written.append(csvField(f));
    return written.join(QLatin1Char(',')).toUtf8() + "\r\n";
}

} // namespace interlude
