#pragma once
// Acts by chance on a shop: whatever may happen, old things included. The same numbers give the same history.

#include "tests/shop/fixture.h"

#include <QRandomGenerator>

namespace interlude::tests {

class RandomHistory {
public:
    explicit RandomHistory(quint32 seed) : m_random(seed) {}

    /// One act that may happen now and has happened; false when what chance proposed was refused.
    bool step(Workbench& bench, ManualClock& clock);
    void steps(Workbench& bench, ManualClock& clock, int count);

private:
    std::optional<Happening> propose(const Workbench& bench);
    std::optional<Happening> aboutSpools(const Workbench& bench);
    std::optional<Happening> aboutNozzles(const Workbench& bench);
    std::optional<Happening> aboutJobs(const Workbench& bench);
    std::optional<Happening> aboutPrinters(const Workbench& bench);
    std::optional<Happening> aboutPlans(const Workbench& bench);
    std::optional<Happening> aSession(const Workbench& bench);
    std::optional<Happening> work(const Workbench& bench, const SessionState& session);
    std::optional<Happening> afterwards(const Workbench& bench);

    int below(int n) { return static_cast<int>(m_random.bounded(n)); }
    template <class List> auto oneOf(const List& list) { return list.at(below(static_cast<int>(list.size()))); }
    QString fresh(const char* stem) { return QString::fromLatin1(stem) + QString::number(++m_made); }

    QRandomGenerator m_random;
    int m_made = 0;
};

} // namespace interlude::tests
