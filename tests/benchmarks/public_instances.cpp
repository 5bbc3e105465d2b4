#include "tests/benchmarks/public_instances.h"

#include "tests/search/label_shop.h"

#include <fstream>
#include <iostream>
#include <sstream>

namespace interlude::bench {

namespace {

using planning::Goal;
using planning::Minute;
using Square = std::vector<std::vector<Minute>>;

Square impossible(int labels) {
    return Square(static_cast<std::size_t>(labels), std::vector<Minute>(static_cast<std::size_t>(labels), -1));
}

/// Reads numbers, one a line, until a line that is none; the line is left out.
std::vector<Minute> numbers(std::istream& in) {
    std::vector<Minute> out;
    for (std::string line; std::getline(in, line);) {
        std::istringstream one(line);
        Minute value = 0;
        if (!(one >> value))
            break;
        out.push_back(value);
    }
    return out;
}

bool readTardiness(std::istream& in, Instance& out) {
    std::string line;
    while (std::getline(in, line) && line.rfind("Process Times:", 0) != 0) {
    }
    for (const Minute m : numbers(in))
        out.print.push_back({m}); // the heading of the weights ends it, and so on
    for (const Minute m : numbers(in))
        out.weight.push_back(static_cast<int>(m));
    out.due = numbers(in);
    out.jobs = static_cast<int>(out.print.size());
    Square setup = impossible(out.jobs + 1);
    while (std::getline(in, line)) {
        std::istringstream one(line);
        int i = 0, j = 0;
        Minute s = 0;
        if (!(one >> i >> j >> s))
            continue;
        setup[static_cast<std::size_t>(i < 0 ? out.jobs : i)][static_cast<std::size_t>(j)] = s;
    }
    out.setup = {setup};
    out.family = Family::OnePrinterTardiness;
    out.goal = Goal::Tardiness;
    return out.jobs > 0 && out.weight.size() == out.print.size() && out.due.size() == out.print.size();
}

bool readMakespan(std::istream& in, Instance& out) {
    int n = 0, m = 0, ignored = 0;
    if (!(in >> n >> m >> ignored >> ignored))
        return false;
    out.jobs = n;
    out.printers = m;
    out.print.assign(static_cast<std::size_t>(n), std::vector<Minute>(static_cast<std::size_t>(m), -1));
    for (auto& row : out.print)
        for (int k = 0; k < m; ++k) {
            int machine = 0;
            Minute time = 0;
            if (!(in >> machine >> time))
                return false;
            row[static_cast<std::size_t>(machine)] = time;
        }
    std::string word;
    in >> word; // SSD
    for (int k = 0; k < m; ++k) {
        in >> word; // Mk
        Square setup = impossible(n + 1);
        for (int i = 0; i < n; ++i)
            for (int j = 0; j < n; ++j)
                if (!(in >> setup[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)]))
                    return false;
        for (int j = 0; j < n; ++j)
            setup.back()[static_cast<std::size_t>(j)] = 0; // the first needs none
        out.setup.push_back(std::move(setup));
    }
    out.family = n <= 12 ? Family::SmallMakespan : Family::LargeMakespan;
    out.goal = Goal::Makespan;
    return true;
}

/// The closed tour as an open sequence: the printer starts at city 0, and the job that leads back to it (job 0) can be
/// followed by nothing and cannot be first, so that it comes last.
bool readTour(std::istream& in, Instance& out) {
    std::string line;
    while (std::getline(in, line) && line.rfind("EDGE_WEIGHT_SECTION", 0) != 0)
        if (line.rfind("DIMENSION", 0) == 0)
            out.jobs = std::stoi(line.substr(line.find(':') + 1));
    const int n = out.jobs;
    Square setup = impossible(n + 1);
    for (int i = 0; i < n; ++i)
        for (int j = 0; j < n; ++j) {
            Minute cost = 0;
            if (!(in >> cost))
                return false;
            if (i != j)
                setup[static_cast<std::size_t>(i == 0 ? n : i)][static_cast<std::size_t>(j)] = cost;
        }
    out.setup = {setup};
    out.print.assign(static_cast<std::size_t>(n), {1});
    out.family = Family::Changeovers;
    out.goal = Goal::Changeover;
    return n > 1;
}

using Reader = bool (*)(std::istream&, Instance&);

void readFolder(const std::filesystem::path& folder, const std::string& prefix, const std::string& ending,
                Reader reader, std::vector<Instance>& out) {
    std::ifstream table(folder / "best_known.csv");
    std::string line;
    std::getline(table, line);
    while (std::getline(table, line)) {
        std::istringstream fields(line);
        std::string name, best, optimal;
        std::getline(fields, name, ',');
        std::getline(fields, best, ',');
        std::getline(fields, optimal, ',');
        Instance one;
        one.name = name;
        one.best = std::stoll(best);
        one.bestIsOptimal = optimal == "1";
        std::filesystem::path file = folder / (prefix + name + ending);
        for (const char* size : {"small", "large"})
            if (std::filesystem::exists(folder / size / (name + ending)))
                file = folder / size / (name + ending);
        std::ifstream in(file);
        if (in && reader(in, one))
            out.push_back(std::move(one));
        else
            std::cerr << file.string() << ": cannot be read\n";
    }
}

} // namespace

planning::Problem Instance::problem() const {
    std::vector<std::vector<int>> labels;
    for (int j = 0; j < jobs; ++j)
        labels.push_back({j});
    planning::Problem out = planning::labelProblem(printers, jobs, setup, labels);
    for (std::size_t j = 0; j < out.jobs.size(); ++j) {
        out.jobs[j].variants[0].print = print[j];
        if (!due.empty())
            out.jobs[j].due = due[j];
        if (!weight.empty())
            out.jobs[j].lateCostPerHour = weight[j];
    }
    return out;
}

std::vector<Instance> publicInstances(const std::filesystem::path& folder) {
    std::vector<Instance> out;
    readFolder(folder / "wtsds", "", ".instance", readTardiness, out);
    readFolder(folder / "upmsp-vallada-ruiz", "", ".txt", readMakespan, out);
    readFolder(folder / "tsplib-atsp", "", ".atsp", readTour, out);
    return out;
}

} // namespace interlude::bench
