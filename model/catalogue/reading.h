#pragma once
// What the readers of one folder share: problems, the trees, which ids exist, and which ids were referred to. References
// are resolved at the end, when every file has been read, so that the order of the files does not matter.

#include "model/catalogue/catalogue.h"
#include "model/catalogue/yaml_tree.h"

#include <QHash>
#include <QSet>

#include <functional>
#include <map>

namespace interlude {

enum class Kind {
    Material, MeltFamily, NozzleType, PrinterType, Printer, Person, Place, Tool, Consumable, Instrument, Spool, Nozzle,
    Job, Step
};
/// "material", "nozzle type" … as messages say it.
QString nameOf(Kind k);

class Reading {
public:
    /// Text of a file of the folder; empty when it is not there. What stands against reading it goes to the problems.
    using Source = std::function<std::optional<QString>(const QString& name, Problems& problems)>;
    explicit Reading(Source source) : m_source(std::move(source)) {}

    // -- files ----------------------------------------------------------------------------------------------------
    /// The tree of a file, kept alive for as long as this; null when absent or unreadable. Empty files are complained of.
    const YamlNode* yaml(const QString& file);
    /// The text of another file; empty when absent or unreadable.
    std::optional<QString> text(const QString& file);
    /// The tree of a file read earlier, or null.
    const YamlNode* tree(const QString& file) const;
    /// Every text read so far.
    const QMap<QString, QString>& texts() const { return m_texts; }

    // -- problems -------------------------------------------------------------------------------------------------
    void complain(const Where& at, const QString& what, const QString& right = {});
    void warn(const Where& at, const QString& what, const QString& right = {});
    /// The same for problems found by readers of bytes and texts.
    void complain(const Problems& found);
    const Problems& problems() const { return m_problems; }
    Problems takeProblems() { return std::move(m_problems); }

    // -- ids ------------------------------------------------------------------------------------------------------
    /// This id exists; `entry` is where it is described. A second one of the same kind is complained of.
    void define(Kind kind, const QString& id, const Where& at, const YamlNode* entry);
    /// A word that several entries share, such as a melt family.
    void defineShared(Kind kind, const QString& word);
    /// This id must exist.
    void refer(Kind kind, const QString& id, const Where& at);
    /// The file that describes this kind could not be read: nothing can be said about references to it.
    void cannotKnow(Kind kind) { m_unknowable.insert(kind); }
    bool exists(Kind kind, const QString& id) const;
    /// After `resolve`: some reference to this kind leads nowhere.
    bool dangles(Kind kind) const { return m_dangling.contains(kind); }
    QStringList known(Kind kind) const;
    /// Something was wrong inside this entry: what it says together with others is not judged, because a value that could
    /// not be read stands at its default.
    void doubt(Kind kind, const QString& id) { m_doubtful[kind].insert(id); }
    /// The entry exists and was read without an error.
    bool sure(Kind kind, const QString& id) const;
    /// The order of the steps rests on something that could not be read.
    void doubtOrder() { m_orderDoubtful = true; }
    bool orderDoubtful() const { return m_orderDoubtful; }
    /// Errors so far, warnings not counted.
    int errors() const { return m_errors; }
    /// Complains of every reference to something that does not exist.
    void resolve();

    // -- where things stand, for checks across entries ------------------------------------------------------------
    /// The entry of an id, or null.
    const YamlNode* entry(Kind kind, const QString& id) const;
    /// The value of `key` in the entry, or else the entry.
    Where where(Kind kind, const QString& id, const QString& key) const;

    /// The zone in which local times are read; UTC until fleet.yaml has said it.
    QTimeZone zone{QByteArrayLiteral("UTC")};

private:
    struct Reference {
        Kind kind;
        QString id;
        Where at;
    };
    struct Defined {
        Where at;
        const YamlNode* entry = nullptr;
    };
    QString suggestion(const Reference& r) const;

    Source m_source;
    Problems m_problems;
    std::map<QString, YamlNode> m_trees;
    QMap<QString, QString> m_texts;
    std::map<Kind, QHash<QString, Defined>> m_defined;
    std::map<Kind, QStringList> m_order;
    std::map<Kind, QSet<QString>> m_doubtful;
    QSet<Kind> m_unknowable, m_dangling;
    int m_errors = 0;
    bool m_orderDoubtful = false;
    QList<Reference> m_references;
};

/// Where `key` stands in a map, or else the map itself.
Where whereOf(const YamlNode& map, const QString& key);

} // namespace interlude
