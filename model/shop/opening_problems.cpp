// Opening entries that the ledger does not follow, in the words and units of the fleet folder and with the place in it.

#include "model/catalogue/yaml_tree.h"
#include "model/shop/openings.h"

#include <QJsonArray>

#include <functional>

namespace interlude {

namespace {

struct Unit {
    const char *suffix, *shown; ///< of a key in events; of the key in the folder
    std::function<QString(qint64, const QTimeZone&)> text;
};

QString thousandth(qint64 v, const QTimeZone&) { return QString::number(static_cast<double>(v) / 1000, 'g', 12); }
QString asItIs(qint64 v, const QTimeZone&) { return QString::number(v); }
QString cents(qint64 v, const QTimeZone&) { return QString::number(static_cast<double>(v) / 100, 'f', 2); }
QString localTime(qint64 v, const QTimeZone& zone) { return toZone(instantFromMs(v), zone).toString(QStringLiteral("yyyy-MM-dd HH:mm")); }

const QList<Unit>& units() {
    static const QList<Unit> all{{"-ms", "", localTime}, {"-mg", "-grams", thousandth}, {"-mm3", "-cm3", thousandth}, {"-um", "-mm", thousandth},
                                 {"-mc", "-c", thousandth}, {"-cents", "", cents}, {"-min", "-minutes", asItIs}};
    return all;
}

/// Where the key of the folder is not that of the event with another unit.
QString ownName(const QString& key) {
    static const QMap<QString, QString> names{{"left-mg", "grams"}, {"left-se-mg", "grams-se"}, {"plain-mm3", "run-cm3"}, {"abrasive-mm3", "run-abrasive-cm3"},
                                              {"print-on-min", "print-minutes"}, {"expected-min", "minutes"}, {"envelope", "envelope-mm"},
                                              {"known", "use known"}, {"to-be-cleaned", "to be cleaned"}, {"where", "state"},
                                              {"exposed-from-ms", "exposed since"}, {"x-um", "x"}, {"y-um", "y"}, {"z-um", "z"}};
    return names.value(key);
}

const Unit* unitOf(const QString& key) {
    for (const Unit& u : units())
        if (key.endsWith(QLatin1String(u.suffix))) return &u;
    return nullptr;
}

QString nameOf(const QString& key) {
    if (const QString own = ownName(key); !own.isEmpty()) return own;
    const Unit* u = unitOf(key);
    return u ? key.chopped(qstrlen(u->suffix)) + QLatin1String(u->shown) : key;
}

bool isNothing(const QJsonValue& v) {
    return v.isNull() || v.isUndefined() || (v.isString() && v.toString().isEmpty()) || (v.isArray() && v.toArray().isEmpty());
}

/// What one entry says now against what it said when it was imported.
class Comparison {
public:
    explicit Comparison(const QTimeZone& zone) : m_zone(zone) {}

    void objects(const QString& in, const QJsonObject& now, const QJsonObject& then) {
        for (auto it = now.begin(); it != now.end(); ++it) values(in, it.key(), it.value(), then.value(it.key()));
    }
    QStringList said; ///< "due was 2026-03-04 14:00, is 2026-03-05 14:00"
    QString firstKey; ///< of the entry, as the folder names it

private:
    void values(const QString& in, const QString& key, const QJsonValue& now, const QJsonValue& then) {
        if (now == then || (isNothing(now) && isNothing(then))) return;
        if (in.isEmpty() && firstKey.isEmpty()) firstKey = nameOf(key);
        if (now.isObject() && then.isObject()) return maps(in, key, now.toObject(), then.toObject());
        if (now.isArray() && then.isArray() && listOfObjects(in, key, now.toArray(), then.toArray())) return;
        say(in + nameOf(key), text(key, now), text(key, then));
    }
    void maps(const QString& in, const QString& key, const QJsonObject& now, const QJsonObject& then) {
        const Unit* unit = unitOf(key);
        if (!unit) return objects(in, now, then);
        QStringList ids = now.keys() + then.keys();
        ids.removeDuplicates();
        for (const QString& id : ids)
            if (now.value(id) != then.value(id)) say(in + nameOf(key) + QStringLiteral(" on ") + id, text(key, now.value(id)), text(key, then.value(id)));
    }
    bool listOfObjects(const QString& in, const QString& key, const QJsonArray& now, const QJsonArray& then) {
        const bool objectsInIt = (now.isEmpty() || now.first().isObject()) && (then.isEmpty() || then.first().isObject());
        if (!objectsInIt) return false;
        if (now.size() != then.size()) {
            say(in + QStringLiteral("the number of entries of ") + nameOf(key), QString::number(now.size()), QString::number(then.size()));
            return true;
        }
        for (qsizetype i = 0; i < now.size(); ++i) {
            const QString name = now[i].toObject().value(QStringLiteral("name")).toString();
            const QString which = name.isEmpty() ? QString::number(i + 1) : QStringLiteral("`%1`").arg(name);
            objects(in + (now.size() == 1 && name.isEmpty() ? QString() : QStringLiteral("%1 %2: ").arg(key.endsWith(QLatin1Char('s')) ? key.chopped(1) : key, which)), now[i].toObject(), then[i].toObject());
        }
        return true;
    }
    QString text(const QString& key, const QJsonValue& v) const {
        if (isNothing(v)) return QStringLiteral("nothing");
        if (v.isBool()) return v.toBool() ? QStringLiteral("yes") : QStringLiteral("no");
        if (v.isObject()) return QStringLiteral("given");
        if (v.isArray()) {
            QStringList items;
            for (const QJsonValue& item : v.toArray()) items.append(text(key, item));
            return items.join(QStringLiteral(", "));
        }
        if (!v.isDouble()) return v.toString();
        const Unit* unit = unitOf(key);
        return unit ? unit->text(v.toInteger(), m_zone) : QString::number(v.toInteger());
    }
    void say(const QString& what, const QString& now, const QString& then) { said.append(QStringLiteral("%1 was %2, is %3").arg(what, then, now)); }

    QTimeZone m_zone;
};

/// It follows from the others, and says no more than they do.
void dropWhatFollows(QStringList& said) {
    if (said.size() > 1) said.removeIf([](const QString& s) { return s.startsWith(QStringLiteral("exposed since ")); });
}

} // namespace

struct OpeningProblems::Files {
    std::map<QString, std::optional<YamlNode>> trees;
    QHash<QString, const YamlNode*> entries; ///< by kind/id
};

OpeningProblems::OpeningProblems(const Catalogue& catalogue) : m_catalogue(catalogue), m_files(std::make_unique<Files>()) {}
OpeningProblems::~OpeningProblems() = default;

Problem OpeningProblems::at(const OpeningKind& k, const QString& id, const QString& key) const {
    const QString file = QString::fromLatin1(k.file);
    auto known = m_files->trees.find(file);
    if (known == m_files->trees.end()) {
        Problems ignored; // the folder was read a moment ago
        known = m_files->trees.emplace(file, readYaml(file, m_catalogue.files.value(file), ignored)).first;
        const YamlNode* list = known->second ? known->second->find(file.section(QLatin1Char('.'), 0, 0)) : nullptr;
        if (list)
            for (const YamlNode& entry : list->items)
                if (const YamlNode* name = entry.find(QLatin1String(k.id))) m_files->entries.insert(file + QLatin1Char('/') + name->text.trimmed(), &entry);
    }
    Problem p;
    p.file = file;
    p.warning = true;
    const YamlNode* entry = m_files->entries.value(file + QLatin1Char('/') + id);
    if (entry && entry->find(QLatin1String(k.noun))) entry = entry->find(QLatin1String(k.noun)); // a print in a setup
    if (!entry) return p;
    const YamlNode* value = entry->find(key);
    p.line = (value ? value : entry)->where.line;
    p.column = (value ? value : entry)->where.column;
    return p;
}

std::optional<Problem> OpeningProblems::difference(const Happening& opening, const QJsonObject& imported) const {
    const OpeningKind* k = openingKindOf(kindOf(opening));
    if (!k) return {};
    const QJsonObject now = toPayload(opening).value(QLatin1String(k->noun)).toObject();
    Comparison c(m_catalogue.fleet.zone);
    c.objects({}, now, imported.value(QLatin1String(k->noun)).toObject());
    if (c.said.isEmpty()) return {};
    dropWhatFollows(c.said);
    const QString id = now.value(QLatin1String(k->id)).toString();
    Problem p = at(*k, id, c.firstKey);
    p.what = QStringLiteral("%1 %2 differs from what was imported: %3").arg(QString::fromLatin1(k->word), id, c.said.join(QStringLiteral("; ")));
    p.right = QStringLiteral("the ledger owns it now, change it in the window");
    return p;
}

Problem OpeningProblems::refused(const Happening& opening, const Finding& why) const {
    const OpeningKind& k = *openingKindOf(kindOf(opening));
    const QString id = toPayload(opening).value(QLatin1String(k.noun)).toObject().value(QLatin1String(k.id)).toString();
    Problem p = at(k, id, why.place);
    p.what = QStringLiteral("%1 %2 is not imported: %3").arg(QString::fromLatin1(k.word), id, why.reason);
    p.right = why.remedy.isEmpty() ? QStringLiteral("take it out, or enter it in the window") : why.remedy;
    return p;
}

} // namespace interlude
