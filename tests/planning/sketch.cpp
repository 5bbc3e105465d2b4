#include "tests/planning/sketch.h"

namespace interlude::tests {

using namespace planning;

const Change& WrittenChanges::from(int, int, int job, int, std::array<bool, 2> worn) {
    if (worn[0] && byWornJob.contains(job))
        return byWornJob[job];
    return byJob[job];
}

Work handsOn(Minute minutes, int people, std::vector<int> tools) {
    return {Kind::HandsOn, people, minutes, std::move(tools), false, {}, {}};
}

Work waiting(Minute minutes) {
    return {Kind::Waiting, 0, minutes, {}, false, {}, {}};
}

Work preparing(Minute minutes, int people) {
    return {Kind::Preparation, people, minutes, {}, false, {}, {}};
}

Work removing(Minute minutes, int people) {
    return {Kind::PartRemoval, people, minutes, {}, false, {}, {}};
}

Work takesOut(Minute minutes, int position) {
    Work work = handsOn(minutes);
    work.removes[static_cast<size_t>(position)] = true;
    return work;
}

Work mounting(Minute minutes) {
    Work work = handsOn(minutes);
    work.mounts = true;
    return work;
}

Sketch::Sketch(int printers) {
    problem.printers.resize(static_cast<size_t>(printers));
    orders.printers.resize(static_cast<size_t>(printers));
    problem.changes = changes;
}

JobNumbers& Sketch::job(int printer, Minute print, std::vector<Work> work) {
    const int number = static_cast<int>(problem.jobs.size());
    JobNumbers job;
    job.id = "J" + std::to_string(number);
    job.holdingCostPerHour = 0;
    VariantNumbers variant;
    variant.print.assign(problem.printers.size(), print);
    variant.whyNot.resize(problem.printers.size());
    job.variants.push_back(variant);
    problem.jobs.push_back(job);
    if (printer >= 0)
        orders.printers[static_cast<size_t>(printer)].push_back({number, 0});
    Change& change = changes->byJob[number];
    change.possible = true;
    change.work = std::move(work);
    change.next = number + 1;
    return problem.jobs.back();
}

NozzlePiece& Sketch::nozzle(std::optional<std::int64_t> life, int printer, int position) {
    problem.scarceNozzles = true;
    NozzlePiece piece;
    piece.serial = "N" + std::to_string(problem.nozzles.size());
    piece.type = piece.family = 0;
    piece.life = life;
    piece.printer = printer;
    piece.position = position;
    if (printer >= 0)
        this->printer(printer).mounted[static_cast<size_t>(position)] = static_cast<int>(problem.nozzles.size());
    problem.nozzles.push_back(piece);
    return problem.nozzles.back();
}

void Sketch::needsNozzle(int job, std::int64_t life, bool support) {
    Change& change = changes->byJob[job];
    for (size_t i = 0; i < (support ? 2U : 1U); ++i) {
        change.nozzle[i] = {true, 0, 0};
        problem.jobs[static_cast<size_t>(job)].variants[0].life[i] = life;
    }
}

Timetable Sketch::timetable() {
    problem.scarceNozzles = problem.scarceNozzles || !problem.nozzles.empty();
    return planning::timetable(problem, *changes, orders);
}

} // namespace interlude::tests
