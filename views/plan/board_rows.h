#pragma once
// The timetable as the board draws it: one row a printer, plain numbers in the order of time, so that what is visible is
// found by binary search and everything can be tested without a window.

#include "model/planning/plans/reservations.h"

namespace interlude {

/// A segment of a changeover or of a part removal.
struct BoardPiece {
    planning::Kind kind = planning::Kind::HandsOn;
    planning::Minute from = 0, to = 0;
    int people = 0;
};

/// One job on a printer (or a session without a job, or a part of no known job: then `job` is -1).
struct BoardBlock {
    int job = -1, variant = -1;
    int place = -1;  ///< position in the printer's order; -1: it prints, lies there or is in session and cannot be moved
    int family = -1; ///< index of ShopProblem::chamberFamilies
    planning::Minute from = 0, to = 0; ///< with changeover and part removal, without preparation
    planning::Minute printStart = 0, printEnd = 0;
    std::optional<planning::Minute> due;
    planning::Minute late = 0; ///< minutes
    bool running = false, session = false, locked = false, isShort = false, dryFirst = false;
    std::size_t firstPiece = 0, pieces = 0; ///< in BoardRow::pieces

    bool movable() const { return place >= 0; }
};

/// Consecutive jobs of one chamber family, at least two.
struct BoardBand {
    int family = -1;
    int first = 0, last = 0; ///< blocks
    int setups = 0;          ///< how often the setup changes within
    planning::Minute from = 0, to = 0;
};

struct BoardRow {
    std::vector<BoardBlock> blocks;
    std::vector<BoardPiece> pieces;
    std::vector<planning::Span> preparations;  ///< ascending
    std::vector<std::pair<planning::Minute, int>> dues; ///< minute and block, ascending
    std::vector<BoardBand> bands;
    std::vector<planning::Span> down;
    std::size_t orderLength = 0; ///< of the printer's order, with jobs that found no place
};

/// Everything the board shows; `problem` and `timetable` are only read.
std::vector<BoardRow> boardRows(const planning::ShopProblem& problem, const planning::Timetable& timetable,
                                const planning::Orders& orders, const QList<planning::Reservation>& reservations);
/// Where everything ends; 0 when nothing is planned.
planning::Minute lastEnd(const std::vector<BoardRow>& rows);

} // namespace interlude
