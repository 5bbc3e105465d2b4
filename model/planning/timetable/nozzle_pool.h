#pragma once
// Which nozzle is where while a timetable runs on, and how much life it has left (private to model/planning).

#include "model/planning/problem/problem.h"

namespace interlude::planning {

class NozzlePool {
public:
    explicit NozzlePool(const Problem& problem);
    void reset();
    /// Goes back to what a pool of the same problem was.
    void backTo(const NozzlePool& other);

    /// The nozzles that a changeover takes, by position (-1: none needed there), and how much longer its mounting gets.
    struct Taken {
        std::array<int, 2> nozzle{-1, -1};
        Minute longer = 0;
    };
    /// What may be taken now; empty when one of those needed is not free. `idle` says by printer whether nothing further
    /// is planned there after its last part removal.
    std::optional<Taken> choose(const Change& change, const VariantNumbers& variant, int printer,
                                const std::vector<char>& idle) const;
    /// They are the printer's from now on. What was mounted before stays there until it is removed.
    void take(const Taken& taken, int printer);
    /// Takes the mounted nozzle out: free from now on. Returns it, or -1.
    int remove(int printer, int position);
    /// The one mounted there, or -1.
    int mounted(int printer, int position) const;
    /// What was taken, by a changeover or before `now` by an open session, is mounted.
    void mountTaken(int printer);
    /// A print begins: what was taken is mounted, life is taken off, and the nozzle serves that family from now on. `change` null: a session's print.
    void print(int printer, const Change* change, const VariantNumbers& variant);
    /// True where a nozzle is mounted whose life is known and does not suffice.
    std::array<bool, 2> worn(int printer, const VariantNumbers& variant) const;
    /// Whether any nozzle anywhere could still serve.
    bool servable(const Change& change, const VariantNumbers& variant) const;

private:
    /// What of a nozzle changes, and what it is chosen by.
    struct Piece {
        int type = -1, family = -1;
        std::optional<std::int64_t> life;
        int printer = -1, position = 0;
    };
    bool fits(int nozzle, const NozzleNeed& need, std::int64_t life) const;

    const Problem& m_problem;
    std::vector<Piece> m_nozzles;
    std::vector<std::array<int, 2>> m_mounted;
    std::vector<std::array<int, 2>> m_taken; ///< by the changeover that goes on, mounted when its print begins
};

} // namespace interlude::planning
