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
/// How an entry differs from what was imported; empty when it does not.
std::optional<Problem> openingDifference(const Happening& opening, const QJsonObject& imported);
/// An entry that cannot be imported any more, with the reason.
Problem openingRefused(const Happening& opening, const Finding& why);

} // namespace interlude
