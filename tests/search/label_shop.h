#pragma once
// A shop that plans by labels alone: changeovers are a table of minutes by printer, from label and to label; crew,
// tools and nozzles are never short and nobody removes parts. For the tests of the search and for the bench.

#include "model/planning/problem/problem.h"

#include <map>
#include <tuple>

namespace interlude::planning {

/// State = label. Minutes -1: impossible.
class LabelChanges : public Changes {
public:
    using Table = std::vector<std::vector<std::vector<Minute>>>; ///< printer, from, to
    LabelChanges(Table table, std::vector<std::vector<int>> labelOf)
        : m_table(std::move(table)), m_label(std::move(labelOf)) {}

    const Change& from(int printer, int state, int job, int variant, std::array<bool, 2>) override {
        const int to = m_label[static_cast<std::size_t>(job)][static_cast<std::size_t>(variant)];
        const auto [at, isNew] = m_kept.try_emplace({printer, state, to});
        if (isNew)
            at->second = made(printer, state, to);
        return at->second;
    }
    const std::vector<Work>& removal(int, int) override { return m_nothing; }
    bool pairwise() const override { return true; }
    std::unique_ptr<Changes> clone() const override { return std::make_unique<LabelChanges>(m_table, m_label); }

private:
    Change made(int printer, int from, int to) const {
        Change c;
        const Minute minutes =
            m_table[static_cast<std::size_t>(printer)][static_cast<std::size_t>(from)][static_cast<std::size_t>(to)];
        c.possible = minutes >= 0;
        c.next = to;
        if (!c.possible)
            c.reason = "no such changeover";
        if (minutes > 0) {
            c.work.push_back({});
            c.work.back().kind = Kind::Waiting;
            c.work.back().minutes = minutes;
            c.minutes = minutes;
        }
        return c;
    }

    Table m_table;
    std::vector<std::vector<int>> m_label; ///< by job and variant
    std::map<std::tuple<int, int, int>, Change> m_kept;
    std::vector<Work> m_nothing;
};

/// Starts a problem of so many printers, all wearing `start`.
inline Problem labelProblem(int printers, int start, LabelChanges::Table table, std::vector<std::vector<int>> labelOf) {
    Problem out;
    for (int p = 0; p < printers; ++p) {
        out.printers.emplace_back();
        out.printers.back().id = "bay-" + std::to_string(p + 1);
        out.printers.back().state = start;
    }
    for (std::size_t j = 0; j < labelOf.size(); ++j) {
        out.jobs.emplace_back();
        out.jobs.back().id = std::to_string(7001 + j);
        out.jobs.back().variants.resize(labelOf[j].size());
        for (auto& v : out.jobs.back().variants)
            v.print.assign(static_cast<std::size_t>(printers), 1);
    }
    out.changes = std::make_shared<LabelChanges>(std::move(table), std::move(labelOf));
    return out;
}

} // namespace interlude::planning
