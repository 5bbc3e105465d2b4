#pragma once
// What of a shop is at hand, as JSON and back, and what of it is over and can be put away.

#include "model/shop/shop.h"

namespace interlude {

/// Things that nothing in the shop will change again as a rule. (What does change all the same comes to hand again.)
struct Over {
    QList<qint64> sessions, prints;
    QStringList jobs, spools, nozzles;
};

class ShopArchive {
public:
    static Over over(const Shop& shop);
    /// Takes these out of the shop; from now on it asks `past` for them.
    static void putAway(Shop& shop, const Over& over, std::shared_ptr<const Past> past);
    static const QMap<qint64, PrintRun>& printsAtHand(const Shop& shop) { return shop.m_prints; }

    static QJsonObject atHand(const Shop& shop);
    /// `shop` is new, made of the catalogue of the folder. False when these are not the words of this version or its
    /// catalogue cannot be read any more; then it is of no use.
    static bool restore(const QJsonObject& o, Shop& shop, std::shared_ptr<const Past> past);

private:
    template <class A, class S> static void members(A& a, S& shop);
};

} // namespace interlude
