#pragma once
// A small language for shops that are planned by hand: name what differs, everything else is nothing at all.

#include "model/planning/timetable/timetable.h"

#include <map>

namespace interlude::tests {

/// Changeovers written down by job; one that is not written down is no work. State of a printer after job j: j + 1.
class WrittenChanges : public planning::Changes {
public:
    std::map<int, planning::Change> byJob;     ///< what that job needs on any printer
    std::map<int, planning::Change> byWornJob; ///< the same when the nozzle in the part position is worn
    std::vector<planning::Work> partRemoval;   ///< on any printer, in any state

    const planning::Change& from(int, int, int job, int, std::array<bool, 2> worn) override;
    const std::vector<planning::Work>& removal(int, int) override { return partRemoval; }
    bool pairwise() const override { return true; }
    std::unique_ptr<planning::Changes> clone() const override { return std::make_unique<WrittenChanges>(*this); }
};

planning::Work handsOn(planning::Minute minutes, int people = 1, std::vector<int> tools = {});
planning::Work waiting(planning::Minute minutes);
planning::Work preparing(planning::Minute minutes, int people = 1);
planning::Work removing(planning::Minute minutes, int people = 1);
planning::Work takesOut(planning::Minute minutes, int position = 0); ///< hands-on, removes that nozzle
planning::Work mounting(planning::Minute minutes);

/// A shop under construction. Printers and jobs are numbered as they come.
struct Sketch {
    planning::Problem problem;
    planning::Orders orders;
    std::shared_ptr<WrittenChanges> changes = std::make_shared<WrittenChanges>();

    explicit Sketch(int printers);
    /// Planned on that printer after those before; `print` minutes there and everywhere. Its changeover is `work`.
    planning::JobNumbers& job(int printer, planning::Minute print, std::vector<planning::Work> work = {});
    planning::Change& change(int job) { return changes->byJob[job]; }
    planning::PrinterNumbers& printer(int p) { return problem.printers[static_cast<size_t>(p)]; }
    /// People on shift from minute to minute.
    void crew(std::vector<planning::CrewFrom> crew) { problem.crew = std::move(crew); }
    /// A piece of type 0, family 0; life empty: without history. Mounted in the part position of a printer, or free.
    planning::NozzlePiece& nozzle(std::optional<std::int64_t> life, int printer = -1, int position = 0);
    /// That job mounts a nozzle of type 0, family 0 in those positions.
    void needsNozzle(int job, std::int64_t life, bool support = false);
    planning::Timetable timetable();
};

/// That job in the order of that printer; an empty one if there are fewer.
inline const planning::TimedJob& at(const planning::Timetable& t, size_t printer, size_t job = 0) {
    static const planning::TimedJob none;
    const auto& jobs = t.printers.at(printer);
    return job < jobs.size() ? jobs[job] : none;
}

} // namespace interlude::tests
