#include "model/catalogue/reading.h"

#include "model/catalogue/did_you_mean.h"

namespace interlude {

QString nameOf(Kind k) {
    switch (k) {
    case Kind::Material: return QStringLiteral("material");
    case Kind::MeltFamily: return QStringLiteral("melt family");
    case Kind::NozzleType: return QStringLiteral("nozzle type");
    case Kind::PrinterType: return QStringLiteral("printer type");
    case Kind::Printer: return QStringLiteral("printer");
    case Kind::Person: return QStringLiteral("person");
    case Kind::Place: return QStringLiteral("place");
    case Kind::Tool: return QStringLiteral("tool");
    case Kind::Consumable: return QStringLiteral("consumable");
    case Kind::Instrument: return QStringLiteral("instrument");
    case Kind::Spool: return QStringLiteral("spool");
    case Kind::Nozzle: return QStringLiteral("nozzle");
    case Kind::Job: return QStringLiteral("job");
    case Kind::Step: return QStringLiteral("step");
    }
    return {};
}

namespace {
QString homeOf(Kind k) {
    switch (k) {
    case Kind::Material:
    case Kind::MeltFamily: return QStringLiteral("materials.yaml");
    case Kind::NozzleType:
    case Kind::Nozzle: return QStringLiteral("nozzles.yaml");
    case Kind::Spool: return QStringLiteral("spools.yaml");
    case Kind::Job: return QStringLiteral("jobs.yaml");
    case Kind::Step: return QStringLiteral("procedures.yaml");
    default: return QStringLiteral("fleet.yaml");
    }
}
} // namespace

Where whereOf(const YamlNode& map, const QString& key) {
    const YamlNode* value = map.find(key);
    return value ? value->where : map.where;
}

const YamlNode* Reading::yaml(const QString& file) {
    const auto text = this->text(file);
    if (!text) return nullptr;
    Problems found;
    auto root = readYaml(file, *text, found);
    complain(found);
    if (!root) return nullptr;
    if (root->kind == YamlNode::Kind::Null) {
        complain({file, 0, 0}, QStringLiteral("the file is empty"), QStringLiteral("fill it in, or remove it"));
        return nullptr;
    }
    return &m_trees.insert_or_assign(file, *std::move(root)).first->second;
}

std::optional<QString> Reading::text(const QString& file) {
    Problems found;
    auto text = m_source(file, found);
    complain(found);
    if (text) m_texts.insert(file, *text);
    return text;
}

const YamlNode* Reading::tree(const QString& file) const {
    const auto found = m_trees.find(file);
    return found == m_trees.end() ? nullptr : &found->second;
}

void Reading::complain(const Where& at, const QString& what, const QString& right) {
    m_problems.append({at.file, at.line, at.column, what, right});
    ++m_errors;
}

void Reading::complain(const Problems& found) {
    m_problems += found;
    m_errors += static_cast<int>(std::count_if(found.begin(), found.end(), [](const Problem& p) { return !p.warning; }));
}

void Reading::warn(const Where& at, const QString& what, const QString& right) {
    m_problems.append({at.file, at.line, at.column, what, right, true});
}

void Reading::define(Kind kind, const QString& id, const Where& at, const YamlNode* entry) {
    auto& all = m_defined[kind];
    if (const auto first = all.constFind(id); first != all.constEnd()) {
        complain(at, QStringLiteral("the %1 `%2` is there twice").arg(nameOf(kind), id),
                 QStringLiteral("the first is on line %1; every id may be used once").arg(first->at.line));
        return;
    }
    all.insert(id, {at, entry});
    m_order[kind].append(id);
}

void Reading::defineShared(Kind kind, const QString& word) {
    if (exists(kind, word)) return;
    m_defined[kind].insert(word, {});
    m_order[kind].append(word);
}

void Reading::refer(Kind kind, const QString& id, const Where& at) {
    m_references.append({kind, id, at});
}

bool Reading::exists(Kind kind, const QString& id) const {
    const auto all = m_defined.find(kind);
    return all != m_defined.end() && all->second.contains(id);
}

bool Reading::sure(Kind kind, const QString& id) const {
    const auto doubtful = m_doubtful.find(kind);
    return exists(kind, id) && (doubtful == m_doubtful.end() || !doubtful->second.contains(id));
}

QStringList Reading::known(Kind kind) const {
    const auto all = m_order.find(kind);
    return all == m_order.end() ? QStringList() : all->second;
}

QString Reading::suggestion(const Reference& r) const {
    if (r.kind == Kind::Place && exists(Kind::Printer, r.id))
        return QStringLiteral("it is a printer; setups.yaml says what is mounted and loaded there");
    const QStringList ids = known(r.kind);
    if (const auto near = didYouMean(r.id, ids)) return QStringLiteral("did you mean `%1`?").arg(*near);
    if (ids.isEmpty()) return QStringLiteral("%1 describes none; add it there").arg(homeOf(r.kind));
    const QString listed = ids.mid(0, 6).join(QStringLiteral(", "));
    return QStringLiteral("%1 knows %2%3").arg(homeOf(r.kind), listed, ids.size() > 6 ? QStringLiteral(", …") : QString());
}

void Reading::resolve() {
    int dangling = 0;
    for (const Reference& r : m_references) {
        if (exists(r.kind, r.id) || m_unknowable.contains(r.kind)) continue;
        m_dangling.insert(r.kind);
        // Suggestions are for people; nobody reads a thousand.
        complain(r.at, QStringLiteral("there is no %1 `%2`").arg(nameOf(r.kind), r.id.left(64)),
                 ++dangling <= 200 ? suggestion(r) : QStringLiteral("add it to %1").arg(homeOf(r.kind)));
    }
    m_references.clear();
}

const YamlNode* Reading::entry(Kind kind, const QString& id) const {
    const auto all = m_defined.find(kind);
    if (all == m_defined.end()) return nullptr;
    const auto found = all->second.constFind(id);
    return found == all->second.constEnd() ? nullptr : found->entry;
}

Where Reading::where(Kind kind, const QString& id, const QString& key) const {
    const YamlNode* node = entry(kind, id);
    return node ? whereOf(*node, key) : Where{homeOf(kind), 0, 0};
}

} // namespace interlude
