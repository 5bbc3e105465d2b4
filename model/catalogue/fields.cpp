#include "model/catalogue/fields.h"

#include "model/catalogue/did_you_mean.h"

#include <cmath>

namespace interlude {

namespace {
/// Far beyond any shop; what is longer would make checks that compare all with all take minutes.
constexpr std::size_t maxItems = 10'000;
constexpr int maxUnknownKeys = 50;
} // namespace

Fields::Fields(Reading& reading, const YamlNode& node, const QString& what) : m_reading(reading), m_node(node), m_errorsBefore(reading.errors()) {
    if (node.kind == YamlNode::Kind::Map || node.kind == YamlNode::Kind::Broken) return;
    reading.complain(node.where, QStringLiteral("%1 is described by keys and values").arg(what),
                     QStringLiteral("write `key: value`, one key a line or inside { }"));
}

Fields::~Fields() {
    complainOfUnknown();
    complainOfMissing();
    if (m_defines && m_reading.errors() > m_errorsBefore) m_reading.doubt(m_defines->first, m_defines->second);
}

void Fields::complainOfMissing() {
    m_missing.removeDuplicates();
    for (const QString& key : m_missing)
        m_reading.complain(m_node.where, QStringLiteral("`%1` is missing").arg(key), QStringLiteral("add it to this entry"));
}

void Fields::complainOfUnknown() {
    int unknown = 0;
    for (const YamlEntry& entry : m_node.entries) {
        if (m_asked.contains(entry.key)) continue;
        if (++unknown > maxUnknownKeys) break;
        const auto near = didYouMean(entry.key, m_asked);
        if (near) m_missing.removeAll(*near);
        m_reading.complain(entry.where, QStringLiteral("unknown key `%1`").arg(entry.key.left(60)),
                           near ? QStringLiteral("did you mean `%1`?").arg(*near)
                                : QStringLiteral("known here are %1").arg(m_asked.join(QStringLiteral(", "))));
    }
}

const YamlNode* Fields::take(const QString& key, Need need) {
    if (!m_asked.contains(key)) m_asked.append(key);
    const YamlNode* value = m_node.find(key);
    if (value) return value->kind == YamlNode::Kind::Broken ? nullptr : value;
    if (need == Need::Required && isMap())
        m_missing.append(key);
    return nullptr;
}

bool Fields::text(const QString& key, QString& out, Need need, int longest) {
    const YamlNode* n = take(key, need);
    const auto v = n ? textOfValue(m_reading, *n, key, longest) : std::nullopt;
    if (v) out = *v;
    return v.has_value();
}

bool Fields::number(const QString& key, double& out, const Range& range, Need need) {
    const YamlNode* n = take(key, need);
    const auto v = n ? numberOf(m_reading, *n, key, range) : std::nullopt;
    if (v) out = *v;
    return v.has_value();
}

bool Fields::whole(const QString& key, int& out, const Range& range, Need need) {
    const YamlNode* n = take(key, need);
    const auto v = n ? wholeOf(m_reading, *n, key, range) : std::nullopt;
    if (v) out = *v;
    return v.has_value();
}

bool Fields::yesNo(const QString& key, bool& out, Need need) {
    const YamlNode* n = take(key, need);
    const auto v = n ? yesNoOf(m_reading, *n, key) : std::nullopt;
    if (v) out = *v;
    return v.has_value();
}

bool Fields::celsius(const QString& key, Temperature& out, Need need) {
    double c = 0;
    if (!number(key, c, range::celsius(), need)) return false;
    out = Temperature::fromCelsius(c);
    return true;
}

bool Fields::celsius(const QString& key, std::optional<Temperature>& out) {
    Temperature t;
    if (!celsius(key, t)) return false;
    out = t;
    return true;
}

bool Fields::minutes(const QString& key, Minutes& out, const Range& range, Need need) {
    double m = 0;
    if (!number(key, m, range, need)) return false;
    out = Minutes(static_cast<int>(std::ceil(m)));
    return true;
}

bool Fields::seconds(const QString& key, Seconds& out, const Range& range, Need need) {
    double s = 0;
    if (!number(key, s, range, need)) return false;
    out = Seconds(std::llround(s));
    return true;
}

bool Fields::money(const QString& key, Money& out) {
    double m = 0;
    if (!number(key, m, range::money())) return false;
    out = Money::fromUnits(m);
    return true;
}

bool Fields::cm3(const QString& key, Volume& out, const Range& range, Need need) {
    double v = 0;
    if (!number(key, v, range, need)) return false;
    out = Volume::fromCm3(v);
    return true;
}

bool Fields::date(const QString& key, QDate& out) {
    const YamlNode* n = take(key);
    const auto v = n ? dateOf(m_reading, *n, key) : std::nullopt;
    if (v) out = *v;
    return v.has_value();
}

bool Fields::localTime(const QString& key, std::optional<Instant>& out, bool dayAlone) {
    const YamlNode* n = take(key);
    const auto v = n ? localTimeOf(m_reading, *n, key, dayAlone) : std::nullopt;
    if (v) out = *v;
    return v.has_value();
}

bool Fields::defines(Kind kind, const QString& key, QString& out) {
    const YamlNode* n = take(key, Need::Required);
    const auto v = n ? idOf(m_reading, *n, key) : std::nullopt;
    if (!v) {
        // A reference may mean the entry that has no good id.
        m_reading.cannotKnow(kind);
        return false;
    }
    out = *v;
    m_defines = {kind, out};
    m_reading.define(kind, out, n->where, &m_node);
    return true;
}

bool Fields::refersTo(Kind kind, const QString& key, QString& out, Need need) {
    const YamlNode* n = take(key, need);
    const auto v = n ? idOf(m_reading, *n, key) : std::nullopt;
    if (!v) return false;
    out = *v;
    m_reading.refer(kind, out, n->where);
    return true;
}

bool Fields::refersToAll(Kind kind, const QString& key, QStringList& out, Empty empty) {
    const auto items = list(key, Need::Optional, empty);
    for (const YamlNode* item : items) {
        const auto id = idOf(m_reading, *item, key);
        if (!id) continue;
        if (out.contains(*id)) {
            m_reading.complain(item->where, QStringLiteral("`%1` is there twice").arg(*id), QStringLiteral("name it once"));
            continue;
        }
        out.append(*id);
        m_reading.refer(kind, *id, item->where);
    }
    return !items.empty();
}

std::vector<const YamlNode*> Fields::list(const QString& key, Need need, Empty empty) {
    std::vector<const YamlNode*> out;
    const YamlNode* n = take(key, need);
    if (!n) return out;
    if (n->kind != YamlNode::Kind::Sequence) {
        m_reading.complain(n->where, QStringLiteral("`%1` is not a list").arg(key), QStringLiteral("write [one, two], or one `- ` a line"));
        return out;
    }
    if (n->items.size() > maxItems) {
        m_reading.complain(n->where, QStringLiteral("`%1` has %2 items").arg(key).arg(n->items.size()), QStringLiteral("at most %1").arg(maxItems));
        return out;
    }
    if (n->items.empty() && empty == Empty::Refused)
        m_reading.complain(n->where, QStringLiteral("`%1` is an empty list").arg(key), need == Need::Required ? QStringLiteral("name at least one") : QStringLiteral("name something, or leave the key out"));
    for (const YamlNode& item : n->items) out.push_back(&item);
    return out;
}

} // namespace interlude
