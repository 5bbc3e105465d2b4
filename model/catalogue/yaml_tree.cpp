#include "model/catalogue/yaml_tree.h"

#include "model/catalogue/open_quote.h"
#include "model/catalogue/text_file.h"
#include "model/catalogue/yaml_errors.h"

#include <QHash>

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <sstream>

namespace interlude {

const YamlNode* YamlNode::find(const QString& key) const {
    for (const YamlEntry& entry : entries)
        if (entry.key == key) return &entry.value;
    return nullptr;
}

namespace {

constexpr std::size_t maxDepth = 40;
constexpr int maxValues = 300'000;

/// Thrown out of yaml-cpp's parser when the file must not be read further; caught in readYaml.
struct TooMuch {
    YAML::Mark mark;
    QString what, right;
};

/// yaml-cpp counts bytes; people count characters. Remembers where it counted to, so that one line of a million values
/// does not cost a million times its length.
class Lines {
public:
    Lines(QString file, const QByteArray& utf8) : m_file(std::move(file)), m_lines(utf8.split('\n')) {}

    Where at(const YAML::Mark& mark) {
        const int line = std::clamp(mark.line, 0, static_cast<int>(m_lines.size()) - 1);
        const QByteArray& text = m_lines[line];
        const int end = std::clamp(mark.column, 0, static_cast<int>(text.size()));
        if (line != m_line || end < m_byte) {
            m_line = line;
            m_byte = 0;
            m_column = 1;
        }
        for (; m_byte < end; ++m_byte)
            if ((static_cast<unsigned char>(text[m_byte]) & 0xC0) != 0x80) ++m_column;
        return {m_file, line + 1, m_column};
    }

    /// A tab stands in the indentation of that line; the parser blames whatever follows it.
    bool indentedByTab(const YAML::Mark& mark) const {
        for (const char c : m_lines.value(mark.line))
            if (c == '\t' || c != ' ') return c == '\t';
        return false;
    }

    /// Where a quote begins that was not closed.
    std::optional<Where> openQuote(int entries, bool broken) {
        const auto found = interlude::openQuote(m_lines, entries, broken);
        if (!found) return {};
        YAML::Mark mark;
        mark.line = found->line;
        mark.column = found->byte;
        return at(mark);
    }

private:
    QString m_file;
    QList<QByteArray> m_lines;
    int m_line = -1, m_byte = 0, m_column = 1;
};

class TreeBuilder final : public YAML::EventHandler {
public:
    TreeBuilder(Lines& lines, Problems& problems) : m_lines(lines), m_problems(problems) {}
    YamlNode root;

    void OnDocumentStart(const YAML::Mark&) override {}
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        attach(begin(mark, {}, anchor, YamlNode::Kind::Null));
    }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
        complain(mark, QStringLiteral("an alias, a word that begins with `*`"), QStringLiteral("write out what it stands for, or put the text in quotes"));
        attach(begin(mark, {}, 0, YamlNode::Kind::Broken));
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, const std::string& v) override {
        YamlNode node = begin(mark, tag, anchor, YamlNode::Kind::Scalar);
        node.text = QString::fromStdString(v);
        for (const QChar c : node.text) {
            if ((c.unicode() >= 0x20 && c.unicode() != 0x7F && c != QChar::ReplacementCharacter) || c == u'\n' || c == u'\t')
                continue;
            complain(mark, QStringLiteral("a character that cannot be shown"), QStringLiteral("remove it from the text"));
            node.kind = YamlNode::Kind::Broken;
            break;
        }
        attach(std::move(node));
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value) override {
        open(mark, begin(mark, tag, anchor, YamlNode::Kind::Sequence));
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value) override {
        open(mark, begin(mark, tag, anchor, YamlNode::Kind::Map));
    }
    void OnMapEnd() override { close(); }

private:
    struct Open {
        YamlNode node;
        std::optional<YamlEntry> pending; ///< a key that waits for its value
        QHash<QString, int> keys;         ///< key → line
    };

    void complain(const YAML::Mark& mark, const QString& what, const QString& right) {
        complain(m_lines.at(mark), what, right);
    }
    void complain(const Where& w, const QString& what, const QString& right) {
        m_problems.append({w.file, w.line, w.column, what, right});
    }

    YamlNode begin(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, YamlNode::Kind kind) {
        if (++m_values > maxValues)
            throw TooMuch{mark, QStringLiteral("more than 300000 values"), QStringLiteral("split or shorten the file")};
        YamlNode node;
        node.kind = kind;
        node.where = m_lines.at(mark);
        if (anchor != 0)
            complain(mark, QStringLiteral("an anchor, a word that begins with `&`"), QStringLiteral("remove it, or put the text in quotes"));
        // "?" and "!" are what the parser gives to plain and to quoted scalars that have no tag.
        if (!tag.empty() && tag != "?" && tag != "!") {
            complain(mark, QStringLiteral("the tag `%1`").arg(QString::fromStdString(tag).left(64).replace(QStringLiteral("tag:yaml.org,2002:"), QStringLiteral("!!"))),
                     QStringLiteral("remove it, or put a text that begins with `!` in quotes"));
            if (kind == YamlNode::Kind::Scalar) node.kind = YamlNode::Kind::Broken;
        }
        return node;
    }

    void open(const YAML::Mark& mark, YamlNode node) {
        if (m_open.size() >= maxDepth)
            throw TooMuch{mark, QStringLiteral("nested deeper than 40 levels"), QStringLiteral("a fleet file needs fewer than ten")};
        m_open.push_back({std::move(node), {}, {}});
    }
    void close() {
        YamlNode node = std::move(m_open.back().node);
        m_open.pop_back();
        attach(std::move(node));
    }
    void attach(YamlNode node) {
        if (m_open.empty()) {
            root = std::move(node);
        } else if (m_open.back().node.kind == YamlNode::Kind::Sequence) {
            m_open.back().node.items.push_back(std::move(node));
        } else if (!m_open.back().pending) {
            beginEntry(std::move(node));
        } else {
            endEntry(std::move(node));
        }
    }
    void beginEntry(YamlNode key) {
        if (key.kind != YamlNode::Kind::Scalar && key.kind != YamlNode::Kind::Broken)
            complain(key.where, QStringLiteral("this key is not a word"), QStringLiteral("a key is a plain word before a colon"));
        const bool word = key.kind == YamlNode::Kind::Scalar;
        m_open.back().pending = YamlEntry{word ? key.text : QString(), key.where, {}};
    }
    void endEntry(YamlNode value) {
        Open& map = m_open.back();
        YamlEntry entry = *std::move(map.pending);
        map.pending.reset();
        if (entry.key.isNull()) return;
        if (const auto first = map.keys.constFind(entry.key); first != map.keys.constEnd()) {
            complain(entry.where, QStringLiteral("the key `%1` is given twice").arg(entry.key),
                     QStringLiteral("it stands on line %1 already; keep one").arg(*first));
            return;
        }
        map.keys.insert(entry.key, entry.where.line);
        entry.value = std::move(value);
        map.node.entries.push_back(std::move(entry));
    }

    Lines& m_lines;
    Problems& m_problems;
    std::vector<Open> m_open;
    int m_values = 0;
};

/// Only tells that something more is there.
class SecondDocument final : public YAML::EventHandler {
public:
    std::optional<YAML::Mark> start;
    void OnDocumentStart(const YAML::Mark& mark) override { throw TooMuch{mark, {}, {}}; }
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark&, YAML::anchor_t) override {}
    void OnAlias(const YAML::Mark&, YAML::anchor_t) override {}
    void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t, const std::string&) override {}
    void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {}
    void OnSequenceEnd() override {}
    void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {}
    void OnMapEnd() override {}
};

std::optional<YamlNode> parse(Lines& lines, const QByteArray& utf8, Problems& problems) {
    std::istringstream stream(utf8.toStdString());
    YAML::Parser parser(stream);
    TreeBuilder builder(lines, problems);
    if (!parser.HandleNextDocument(builder)) return builder.root;
    SecondDocument second;
    try {
        parser.HandleNextDocument(second);
    } catch (const TooMuch& more) {
        throw TooMuch{more.mark, QStringLiteral("a second document begins here"),
                      QStringLiteral("one document a file; check the indentation of this line")};
    }
    return std::move(builder.root);
}

} // namespace

std::optional<YamlNode> readYaml(const QString& file, const QString& text, Problems& problems) {
    const QByteArray utf8 = withPlainLineEnds(text).toUtf8();
    Lines lines(file, utf8);
    const auto complain = [&](const YAML::Mark& mark, const QString& what, const QString& right) {
        const Where w = lines.at(mark);
        problems.append({w.file, w.line, w.column, what, right});
    };
    const auto notClosed = [&](const Where& w) {
        problems.append({w.file, w.line, w.column, QStringLiteral("this quote is not closed where its text ends"), QStringLiteral("close it there")});
    };
    // The parser's exceptions end here.
    try {
        if (auto root = parse(lines, utf8, problems)) {
            if (const auto quote = lines.openQuote(2, false)) {
                notClosed(*quote);
                return {};
            }
            if (root->where.line == 0) root->where = {file, 1, 1};
            return root;
        }
    } catch (const TooMuch& stop) {
        complain(stop.mark, stop.what, stop.right);
    } catch (const YAML::Exception& error) {
        if (const auto quote = lines.openQuote(1, true); quote && quote->line <= error.mark.line + 1) {
            notClosed(*quote);
            return {};
        }
        const SyntaxText said = syntaxText(lines.indentedByTab(error.mark) ? YAML::ErrorMsg::TAB_IN_INDENTATION : error.msg);
        complain(error.mark, said.what, said.right);
    } catch (const std::exception& error) {
        problems.append({file, 0, 0, QStringLiteral("cannot be read as YAML (%1)").arg(QString::fromUtf8(error.what())), {}});
    }
    return {};
}

} // namespace interlude
