#pragma once
// Opening entries of the fleet folder: each is imported once, by its id, as an event. A later difference is reported.

#include "model/shop/shop.h"

namespace interlude {

/// What was imported so far, as it stood then.
class ImportedOpenings {
public:
    /// Takes note when the event is the import of opening entries, one or (of a CSV) many.
    void remember(const Event& e);
    /// The payload of the import of this entry's id; empty when it was never imported.
    std::optional<QJsonObject> find(const Happening& opening) const;

    /// By `kind/id`: those that have not been put away.
    const QMap<QString, QJsonObject>& atHand() const { return m_byKey; }
    /// From now on those at hand until now are asked of `past`.
    void putAway(std::shared_ptr<const Past> past);

private:
    QMap<QString, QJsonObject> m_byKey;
    std::shared_ptr<const Past> m_past;
};

/// In the order of import: spools, nozzles, jobs, then the setups that speak of them, then the prints that run with these.
QList<Happening> openingsOf(const Catalogue& catalogue);

/// One kind of opening entry: its event, its noun in that event's payload, the key of its id, its file, its word in sentences.
struct OpeningKind {
    const char *kind, *noun, *id, *file, *word;
};
/// Null for events that are none.
const OpeningKind* openingKindOf(const QString& kind);

/// What is to be said of entries that the ledger does not follow: where they stand in the folder, with its keys, its units
/// and its local times. Borrows the catalogue.
class OpeningProblems {
public:
    explicit OpeningProblems(const Catalogue& catalogue);
    ~OpeningProblems();

    /// How an entry differs from what was imported; empty when it does not.
    std::optional<Problem> difference(const Happening& opening, const QJsonObject& imported) const;
    /// An entry that cannot be imported (any more), with the reason.
    Problem refused(const Happening& opening, const Finding& why) const;

private:
    struct Files;
    Problem at(const OpeningKind& k, const QString& id, const QString& key) const;

    const Catalogue& m_catalogue;
    std::unique_ptr<Files> m_files; ///< read when the first problem is said
};

} // namespace interlude
