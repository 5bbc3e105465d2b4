#pragma once
// The changeovers of a real shop for the planner: judged and laid out by the same functions as the guided ones, remembered
// by what the printer wears. Setups known by label only come from the printer's table of measured changeovers.

#include "model/changeover/changeover.h"
#include "model/planning/problem/problem.h"

#include <QHash>

#include <unordered_map>

namespace interlude::planning {

/// What does not change while a plan is made; shared by the worker's copies.
struct ChangesGround {
    CataloguePtr catalogue;
    Stock stock; ///< imagined
    Instant now;
    QList<Setup> setups;                    ///< each different one once
    std::vector<std::vector<int>> setupOf;  ///< by job and variant
    std::vector<int> presentSetup;          ///< by printer: what it is dressed with now
    std::vector<int> kindOf;                ///< by printer: printers of one kind have the same changeovers
    std::vector<PrinterId> printerOf;       ///< by kind: one printer of it
    /// By kind: table of measured changeovers, by from and to.
    std::vector<QHash<std::pair<QString, QString>, MeasuredChangeover>> measured;
    bool pairwise = false;
};

class ShopChanges final : public Changes {
public:
    explicit ShopChanges(std::shared_ptr<const ChangesGround> ground);

    /// The number of that state; `printer` as `imagined` makes it.
    int stateOf(const PrinterNow& printer);
    const PrinterNow& printerIn(int state) const { return m_states[static_cast<std::size_t>(state)]; }
    const ChangesGround& ground() const { return *m_ground; }

    const Change& from(int printer, int state, int job, int variant, std::array<bool, 2> worn) override;
    const std::vector<Work>& removal(int printer, int state) override;
    bool pairwise() const override { return m_ground->pairwise; }
    std::unique_ptr<Changes> clone() const override;
    /// The same with a setup instead of a job.
    const Change& toSetup(int kind, int state, int setup, std::array<bool, 2> worn);
    /// Works of segments, part removal apart: also for the rest of an open session.
    std::vector<Work> worksOf(const QList<Segment>& segments, const Changeover& changeover) const;

private:
    Change judge(int kind, int state, const Setup& setup, std::array<bool, 2> worn);
    Change byTable(int kind, int state, const Setup& setup);
    TransitionRequest request(int kind, int state, const Setup& setup, std::array<bool, 2> worn) const;
    Work workOf(const Segment& s, const Changeover& changeover) const;
    Cents materialOf(const Transition& t) const;
    NozzleNeed needOf(const Transition& t, Role role) const;

    std::shared_ptr<const ChangesGround> m_ground;
    std::vector<PrinterNow> m_states;
    QHash<QByteArray, int> m_numbers;
    // Unordered maps keep references good while they grow.
    std::unordered_map<std::uint64_t, Change> m_changes;
    std::unordered_map<std::uint64_t, std::vector<Work>> m_removals;
    QHash<QString, int> m_toolNumbers, m_typeNumbers, m_familyNumbers;
};

/// Numbers of nozzle types and melt families, as the problem uses them.
QHash<QString, int> nozzleTypeNumbers(const Catalogue& catalogue);
QHash<QString, int> meltFamilyNumbers(const Catalogue& catalogue);
QHash<QString, int> toolNumbers(const Catalogue& catalogue);

} // namespace interlude::planning
