#include "model/catalogue/catalogue_hash.h"

#include "model/catalogue/text_file.h"

#include <QCryptographicHash>

namespace interlude {

namespace {

class Rendering {
public:
    void text(char kind, const QString& s) {
        const QByteArray utf8 = s.toUtf8();
        m_hash.addData(QByteArray(1, kind) + QByteArray::number(utf8.size()) + ':' + utf8);
    }
    void count(char kind, std::size_t n) {
        m_hash.addData(QByteArray(1, kind) + QByteArray::number(static_cast<qulonglong>(n)) + ':');
    }
    void node(const YamlNode& n) {
        switch (n.kind) {
        case YamlNode::Kind::Scalar: text('s', n.text.trimmed()); break;
        case YamlNode::Kind::Sequence:
            count('l', n.items.size());
            for (const YamlNode& item : n.items) node(item);
            break;
        case YamlNode::Kind::Map: {
            QMap<QString, const YamlNode*> sorted;
            for (const YamlEntry& e : n.entries) sorted.insert(e.key, &e.value);
            count('m', n.entries.size());
            for (auto it = sorted.cbegin(); it != sorted.cend(); ++it) {
                text('k', it.key());
                node(**it);
            }
            break;
        }
        case YamlNode::Kind::Null:
        case YamlNode::Kind::Broken: count('n', 0); break;
        }
    }
    QString result() const { return QString::fromLatin1(m_hash.result().toHex()); }

private:
    QCryptographicHash m_hash{QCryptographicHash::Sha256};
};

} // namespace

QString catalogueHash(const Reading& reading) {
    Rendering out;
    for (const char* name : {"fleet.yaml", "materials.yaml", "procedures.yaml"}) {
        const QString file = QString::fromLatin1(name);
        const YamlNode* tree = reading.tree(file);
        out.text('f', file);
        if (tree) out.node(*tree);
    }
    const YamlNode* nozzles = reading.tree(QStringLiteral("nozzles.yaml"));
    const YamlNode* types = nozzles ? nozzles->find(QStringLiteral("nozzle-types")) : nullptr;
    out.text('f', QStringLiteral("nozzle-types"));
    if (types) out.node(*types);
    const auto& texts = reading.texts();
    for (auto it = texts.cbegin(); it != texts.cend(); ++it) {
        if (!it.key().endsWith(QStringLiteral(".csv"))) continue;
        out.text('f', it.key());
        out.text('t', withPlainLineEnds(it.value()));
    }
    return out.result();
}

} // namespace interlude
