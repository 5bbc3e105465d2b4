#include "tests/planning/dump.h"

#include <sstream>

namespace interlude::tests {

using namespace planning;

namespace {

const char* name(Kind kind) {
    switch (kind) {
    case Kind::Preparation:
        return "preparation";
    case Kind::HandsOn:
        return "hands-on";
    case Kind::Waiting:
        return "waiting";
    case Kind::PartRemoval:
        return "part-removal";
    }
    return "?";
}

std::string minute(Minute m) {
    return m >= never ? "never" : std::to_string(m);
}

void show(std::ostream& out, const Work& w) {
    out << name(w.kind) << ' ' << w.minutes << "' people " << w.people;
    for (const int tool : w.tools)
        out << " tool" << tool;
    if (w.mounts)
        out << " mounts";
    for (size_t i = 0; i < 2; ++i)
        if (w.removes[i])
            out << " removes" << i;
}

void show(std::ostream& out, const PrinterNumbers& p) {
    out << p.id << ": state " << p.state << ", rate " << p.hourlyRate << ", nozzle removal " << p.nozzleRemoval
        << ", mounted " << p.mounted[0] << ' ' << p.mounted[1];
    for (const Span& s : p.down)
        out << ", down " << minute(s.from) << ".." << minute(s.to);
    if (p.partLies)
        out << ", running job " << p.runningJob << ' ' << p.runningStart << ".." << minute(p.runningEnd);
    out << '\n';
    if (!p.session)
        return;
    out << "  session for job " << p.sessionJob << ", then state " << p.sessionState << '\n';
    for (const Work& w : p.sessionWork) {
        out << "    ";
        show(out, w);
        out << '\n';
    }
}

void show(std::ostream& out, const JobNumbers& j) {
    out << j.id << ": late " << j.lateCostPerHour << ", holding " << j.holdingCostPerHour;
    if (j.release)
        out << ", release " << *j.release;
    if (j.due)
        out << ", due " << *j.due;
    for (const VariantNumbers& v : j.variants) {
        out << " | print";
        for (const Minute m : v.print)
            out << ' ' << m;
        out << " life " << v.life[0] << ' ' << v.life[1];
    }
    out << '\n';
}

} // namespace

std::string shown(const Problem& problem, const Orders& orders) {
    std::ostringstream out;
    out << "crew";
    for (const CrewFrom& c : problem.crew)
        out << ' ' << c.from << ':' << (c.crew == unlimitedCrew ? "any" : std::to_string(c.crew));
    out << "\ntools";
    for (const int pieces : problem.toolPieces)
        out << ' ' << pieces;
    out << (problem.scarceNozzles ? "\nscarce nozzles\n" : "\nno account of nozzles\n");
    for (size_t n = 0; n < problem.nozzles.size(); ++n) {
        const NozzlePiece& z = problem.nozzles[n];
        out << "nozzle " << n << ": type " << z.type << " family " << z.family << " life "
            << (z.life ? std::to_string(*z.life) : "without history") << " printer " << z.printer << '\n';
    }
    for (const JobNumbers& j : problem.jobs)
        show(out, j);
    for (size_t p = 0; p < problem.printers.size(); ++p) {
        show(out, problem.printers[p]);
        out << "  order:";
        for (const Place& place : orders.printers[p])
            out << ' ' << place.job << '/' << place.variant;
        out << '\n';
    }
    return out.str();
}

std::string shown(const Totals& t) {
    std::ostringstream out;
    out << "turnaround " << t.turnaround << ", changeover " << t.changeover << ", hands-on " << t.handsOn
        << ", makespan " << minute(t.makespan) << ", weighted tardiness " << t.weightedTardiness << ", late "
        << t.lateJobs << ", clean-outs " << t.cleanOuts << ", not placed " << t.notPlaced << ", cost " << t.cost
        << '\n';
    return out.str();
}

std::string shown(const Timetable& timetable) {
    std::ostringstream out;
    for (size_t p = 0; p < timetable.printers.size(); ++p) {
        out << "printer " << p << '\n';
        for (const TimedJob& j : timetable.printers[p]) {
            out << "  job " << j.job << '/' << j.variant << (j.running ? " running" : "")
                << (j.session ? " session" : "") << ": changeover " << j.changeoverMinutes << ", turnaround "
                << j.turnaround << ", done " << j.changeoverDone << ", print " << j.printStart << ".."
                << minute(j.printEnd) << ", complete " << minute(j.complete) << '\n';
            for (const TimedWork& w : j.work) {
                out << "    " << w.start << ".." << w.end << ' ';
                show(out, *w.work);
                out << " took " << w.took[0] << ' ' << w.took[1] << " freed " << w.freed[0] << ' ' << w.freed[1]
                    << '\n';
            }
        }
    }
    out << "not placed:";
    for (const NotPlaced& n : timetable.notPlaced)
        out << ' ' << n.job;
    out << '\n' << shown(timetable.totals);
    return out.str();
}

} // namespace interlude::tests
