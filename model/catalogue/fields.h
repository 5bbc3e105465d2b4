#pragma once
// One YAML map being read: every key is asked for by name, typed; what was never asked for is an unknown key.

#include "model/catalogue/values.h"

namespace interlude {

enum class Need { Optional, Required };
/// Whether a list may be there with nothing in it; not where a list left out means "any".
enum class Empty { Allowed, Refused };

class Fields {
public:
    /// `what` as messages say it, with article: "a material". Complains when the node is not a map.
    Fields(Reading& reading, const YamlNode& node, const QString& what);
    /// Complains of keys that nobody asked for, and of required ones that are missing (not of one that is there misspelt).
    ~Fields();
    Fields(const Fields&) = delete;
    Fields& operator=(const Fields&) = delete;

    bool isMap() const { return m_node.kind == YamlNode::Kind::Map; }
    bool has(const QString& key) const { return m_node.find(key) != nullptr; }
    Reading& reading() { return m_reading; }
    const YamlNode& node() const { return m_node; }
    /// Where the value of a key stands, or else the map.
    Where where(const QString& key) const { return whereOf(m_node, key); }
    void complain(const QString& key, const QString& what, const QString& right = {}) {
        m_reading.complain(where(key), what, right);
    }

    /// The value of a key; null when it is not there (complained of if required) or broken.
    const YamlNode* take(const QString& key, Need need = Need::Optional);

    // Each leaves `out` as it is when there is no (good) value, and says whether there was one.
    bool text(const QString& key, QString& out, Need need = Need::Optional, int longest = 200);
    bool number(const QString& key, double& out, const Range& range, Need need = Need::Optional);
    bool whole(const QString& key, int& out, const Range& range, Need need = Need::Optional);
    bool yesNo(const QString& key, bool& out, Need need = Need::Optional);
    bool celsius(const QString& key, Temperature& out, Need need = Need::Optional);
    bool celsius(const QString& key, std::optional<Temperature>& out);
    /// Rounded up to whole minutes, as every duration is.
    bool minutes(const QString& key, Minutes& out, const Range& range = range::minutes(), Need need = Need::Optional);
    bool seconds(const QString& key, Seconds& out, const Range& range, Need need = Need::Optional);
    bool money(const QString& key, Money& out);
    bool cm3(const QString& key, Volume& out, const Range& range, Need need = Need::Optional);
    bool date(const QString& key, QDate& out);
    bool localTime(const QString& key, std::optional<Instant>& out, bool dayAlone = false);

    /// The id of this entry: defines it. Any error in the entry, before or after this, puts it in doubt.
    bool defines(Kind kind, const QString& key, QString& out);
    /// An id of something described elsewhere: must exist in the end.
    bool refersTo(Kind kind, const QString& key, QString& out, Need need = Need::Optional);
    /// A list of such ids, each once.
    bool refersToAll(Kind kind, const QString& key, QStringList& out, Empty empty = Empty::Allowed);

    template <typename T>
    bool choice(const QString& key, T& out, const QList<WordFor<T>>& choices, Need need = Need::Optional) {
        const YamlNode* n = take(key, need);
        if (!n) return false;
        QStringList words;
        for (const WordFor<T>& c : choices) words.append(c.word);
        const auto found = choiceOf(m_reading, *n, key, words);
        if (found) out = choices[*found].value;
        return found.has_value();
    }

    /// The items of a list, empty when it is not there; complains of anything else than a list.
    std::vector<const YamlNode*> list(const QString& key, Need need = Need::Optional, Empty empty = Empty::Allowed);

private:
    void complainOfUnknown();
    void complainOfMissing();

    Reading& m_reading;
    const YamlNode& m_node;
    QStringList m_asked, m_missing;
    int m_errorsBefore = 0;
    std::optional<std::pair<Kind, QString>> m_defines;
};

} // namespace interlude
