#pragma once
// Everything that planning looks at, as plain numbers (design section 6): minutes since `now`, integer cents, indices
// instead of ids. Immutable while it is planned with, so that timetable, search and bounds can be tested, fuzzed and timed
// alone and run in a worker thread. `shopProblem` makes one from a shop; the tests make their own.

#include <array>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace interlude::planning {

using Minute = std::int64_t; ///< since `now`; negative = before it
using Cents = std::int64_t;
/// Later than everything: a print that never ends, a closed end.
inline constexpr Minute never = std::numeric_limits<Minute>::max() / 4;
inline constexpr int unlimitedCrew = std::numeric_limits<int>::max() / 4;

/// The two positions of a printer; also the index into the arrays below.
enum Position { PartPosition = 0, SupportPosition = 1 };

enum class Kind { Preparation, HandsOn, Waiting, PartRemoval };

/// One piece of work on one printer. `people` = 0: nobody is needed (waiting, or an unattended printer).
struct Work {
    Kind kind = Kind::HandsOn;
    int people = 0;
    Minute minutes = 0;
    std::vector<int> tools;            ///< index of a tool, once for each piece needed, ascending
    bool mounts = false;               ///< begins with a nozzle mounting
    std::array<bool, 2> removes{};     ///< the nozzle of that position is out when it ends
    std::vector<std::string> steps;    ///< ids, for people
    bool operator==(const Work&) const = default;
};

/// What a changeover asks of the nozzle at one position.
struct NozzleNeed {
    bool exchange = false; ///< one is mounted; false: what is mounted stays
    int type = -1;         ///< index of the nozzle type; -1: position not used
    int family = -1;       ///< melt family that it shall serve
    bool operator==(const NozzleNeed&) const = default;
};

/// From what a printer wears (a state) to a variant of a job. Without work when nothing changes and nobody is needed.
struct Change {
    bool possible = false;
    std::string reason;          ///< why not, in plain words
    std::optional<Work> preparation;
    std::vector<Work> work;      ///< internal segments in order, without part removal; none has 0 minutes
    Minute minutes = 0;          ///< sum over `work`
    Minute handsOn = 0;          ///< sum of people × minutes over `work`
    bool cleanOut = false;
    Cents material = 0;          ///< purged material + clean-out consumables
    std::array<NozzleNeed, 2> nozzle;
    std::array<std::int64_t, 2> purge{}; ///< mm³ of the new material, purged or primed, by position
    int next = 0;                ///< state of the printer when the print has ended and the part is out
    std::vector<std::string> facts, reasons; ///< in plain words, for *Why*
};

/// Which changeovers there are. Answers are kept by the implementation: asking again is cheap, and a reference stays good
/// for the life of the source. Not shared between threads: a worker takes its own by `clone`.
class Changes {
public:
    virtual ~Changes() = default;
    /// `worn`: the nozzle mounted at that position has too little life for the job, so it is exchanged even where it would
    /// stay otherwise.
    virtual const Change& from(int printer, int state, int job, int variant, std::array<bool, 2> worn) = 0;
    /// Taking the part of the previous print out of a printer in that state; empty: nothing to do.
    virtual const std::vector<Work>& removal(int printer, int state) = 0;
    /// True when a printer's state depends on nothing but the last variant, so that changeovers form a table.
    virtual bool pairwise() const = 0;
    virtual std::unique_ptr<Changes> clone() const = 0;
};

/// One physical nozzle. Life is counted in billionths of the rated life, so that plain and abrasive use add up exactly.
struct NozzlePiece {
    std::string serial;
    int type = -1;
    int family = -1;              ///< -1: never used, serves any
    std::optional<std::int64_t> life; ///< left; empty: no history
    int printer = -1, position = 0; ///< where mounted; -1: free
};

struct VariantNumbers {
    std::string name, setup;       ///< for people: "PC · soluble · 0.4"
    std::vector<Minute> print;     ///< by printer; -1: not on this printer (reason in `whyNot`)
    std::vector<std::string> whyNot;
    std::array<std::int64_t, 2> life{}; ///< taken from the nozzle at each position, in billionths of its rated life
    int family = -1;               ///< chamber family, for bands and *Group by family*
};

struct JobNumbers {
    std::string id;
    std::optional<Minute> release; ///< no print before this; none: at once, and holding counts from `now`
    std::optional<Minute> due;
    Cents lateCostPerHour = 0, holdingCostPerHour = 100;
    std::vector<VariantNumbers> variants;
};

struct Span {
    Minute from = 0, to = 0; ///< [from, to)
};

struct PrinterNumbers {
    std::string id;
    int state = 0;               ///< what it wears now, or will when its running print has ended
    Cents hourlyRate = 0;
    Minute nozzleRemoval = 0;    ///< how much a mounting grows when it takes a nozzle from this printer
    int removalPeople = 1;
    std::array<int, 2> mounted{-1, -1}; ///< nozzle index
    std::vector<Span> down;      ///< ascending, apart
    /// A print that runs, or a part that lies there (then `runningStart` == `runningEnd` <= 0). -1 with `partLies`: a part of no known job.
    bool partLies = false;
    int runningJob = -1, runningVariant = -1;
    Minute runningStart = 0, runningEnd = 0;
    /// The rest of an open session, ending with the print of `sessionJob` (-1: a setup without a job). `sessionWork` may
    /// begin with part removal.
    bool session = false;
    int sessionJob = -1, sessionVariant = -1;
    std::vector<Work> sessionWork;
    std::array<int, 2> sessionNozzles{-1, -1}; ///< nozzle index: chosen by the session, mounted nowhere yet; nobody else takes them
    int sessionState = 0;        ///< state after that print
};

/// People on shift: `crew` from `from` on until the next entry. The first entry begins at or before 0.
struct CrewFrom {
    Minute from = 0;
    int crew = unlimitedCrew;
};

struct Problem {
    std::vector<PrinterNumbers> printers;
    std::vector<JobNumbers> jobs; ///< in file order
    std::vector<NozzlePiece> nozzles; ///< in file order
    bool scarceNozzles = false;   ///< false: nozzles are not kept account of (shops that plan by labels)
    std::vector<int> toolPieces;  ///< by tool index
    std::vector<std::string> tools;
    std::vector<CrewFrom> crew{{0, unlimitedCrew}}; ///< absences taken off already; never negative
    std::shared_ptr<Changes> changes;

    /// Nobody ever waits for people, tools or nozzles, and no printer is down: then printers do not touch each other.
    bool printersApart() const;
};

/// One job on a printer: which variant of it.
struct Place {
    int job = -1, variant = 0;
    bool operator==(const Place&) const = default;
};

/// The orders of a plan: by printer, the jobs after what runs now. A locked job keeps printer and position.
struct Orders {
    std::vector<std::vector<Place>> printers;
    std::vector<int> leftOut;    ///< jobs that the planner has put nowhere, ascending
    std::vector<char> locked;    ///< by job
    bool operator==(const Orders&) const = default;
};

} // namespace interlude::planning
