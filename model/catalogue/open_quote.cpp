#include "model/catalogue/open_quote.h"

#include <QRegularExpression>

namespace interlude {

namespace {

bool looksLikeEntry(const QByteArray& line) {
    static const QRegularExpression entry(QStringLiteral("^\\s*(?:- +)?\\{?\\s*[a-z][a-z0-9-]*:(?:\\s|$)"));
    return entry.match(QString::fromUtf8(line)).hasMatch();
}

int indentOf(const QByteArray& line) {
    int n = 0;
    while (n < line.size() && line[n] == ' ') ++n;
    return n;
}

/// Enough of YAML to know where a quote begins a text and where it is only a sign in one.
class QuoteScanner {
public:
    QuoteScanner(const QList<QByteArray>& lines, int entries, bool broken) : m_lines(lines), m_entries(entries), m_broken(broken) {}

    std::optional<OpenQuote> find() {
        for (m_line = 0; m_line < m_lines.size(); ++m_line) {
            const QByteArray& line = m_lines[m_line];
            if (m_quote == 0 && inBlock(line)) continue;
            if (m_quote != 0 && looksLikeEntry(line)) ++m_swallowed;
            m_begins = true;
            for (int i = 0; i < line.size(); ++i)
                if (!step(line, i)) break;
                else if (m_found) return m_opened;
        }
        if (m_quote != 0 && m_swallowed >= m_entries) return m_opened;
        return {};
    }

private:
    bool inBlock(const QByteArray& line) {
        if (m_block < 0) return false;
        if (line.trimmed().isEmpty() || indentOf(line) > m_block) return true;
        m_block = -1;
        return false;
    }
    /// False when the rest of the line says nothing.
    bool step(const QByteArray& line, int& i) {
        const char c = line[i];
        const char next = i + 1 < line.size() ? line[i + 1] : ' ';
        if (m_quote != 0) return inside(c, next, i), true;
        if (c == '#' && (i == 0 || line[i - 1] == ' ')) return false;
        if (c == ' ') return true;
        if (m_begins && (c == '|' || c == '>') && m_flow == 0) {
            m_block = indentOf(line);
            return false;
        }
        if (m_begins && (c == '"' || c == '\'')) {
            m_quote = c;
            m_opened = {m_line, i};
            m_swallowed = 0;
            return true;
        }
        if (m_begins && (c == '[' || c == '{')) return ++m_flow, true;
        if (m_flow > 0 && (c == ']' || c == '}')) --m_flow;
        m_begins = (m_flow > 0 && c == ',') || ((c == ':' || (c == '-' && m_begins)) && next == ' ');
        return true;
    }
    void inside(char c, char next, int& i) {
        if ((m_quote == '"' && c == '\\') || (m_quote == '\'' && c == '\'' && next == '\'')) {
            ++i;
            return;
        }
        if (c != m_quote) return;
        m_quote = 0;
        m_begins = false;
        const bool followed = m_broken && !QByteArray(" \t,]}:").contains(next);
        m_found = followed || m_swallowed >= m_entries;
    }

    const QList<QByteArray>& m_lines;
    int m_entries;
    bool m_broken;
    int m_line = 0, m_flow = 0, m_swallowed = 0;
    int m_block = -1;      ///< indentation of the key of a block text; -1: in none
    char m_quote = 0;      ///< the sign that closes the text in which this is; 0: in none
    bool m_begins = true;  ///< a text may begin here
    bool m_found = false;
    OpenQuote m_opened;
};

} // namespace

std::optional<OpenQuote> openQuote(const QList<QByteArray>& lines, int entries, bool broken) {
    return QuoteScanner(lines, entries, broken).find();
}

} // namespace interlude
