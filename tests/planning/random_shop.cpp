#include "tests/planning/random_shop.h"

#include "tests/planning/random_changes.h"

#include <algorithm>
#include <set>

namespace interlude::tests {

using namespace planning;

std::uint64_t Dice::next() {
    std::uint64_t z = m_state += 0x9e3779b97f4a7c15ULL;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
}

namespace {

class Builder {
public:
    explicit Builder(std::uint64_t seed) : m_seed(seed), m_dice(seed * 7919 + 1) {}
    RandomShop build();

private:
    void tools();
    void crew();
    void states();
    void jobs();
    JobNumbers job(int index);
    void printers();
    void runs(PrinterNumbers& printer);
    void session(PrinterNumbers& printer, int p);
    void nozzles();
    int someJob(bool printable, int printer);
    Orders orders();

    std::uint64_t m_seed;
    Dice m_dice;
    int m_printerCount = 0;
    HatLimits m_limits;
    Problem m_problem;
    std::shared_ptr<RandomChanges> m_changes;
    std::set<int> m_used; ///< jobs that run or belong to a session
};

void Builder::tools() {
    for (int n = m_dice.below(3); n > 0; --n) {
        m_problem.toolPieces.push_back(m_dice.from(1, 2));
        m_problem.tools.push_back("tool " + std::to_string(n));
    }
    m_limits.toolPieces = m_problem.toolPieces;
}

void Builder::crew() {
    if (m_dice.oneIn(5))
        return; // without limit
    m_problem.crew.clear();
    Minute at = m_dice.oneIn(2) ? 0 : -m_dice.below(60);
    for (int n = m_dice.from(1, 9); n > 0; --n) {
        m_problem.crew.push_back({at, m_dice.from(0, 3)});
        at = std::max<Minute>(at, 0) + m_dice.from(1, 50);
    }
    // What stays for ever is mostly enough for somebody.
    m_problem.crew.push_back({at, m_dice.oneIn(6) ? m_dice.below(2) : m_dice.from(1, 3)});
}

void Builder::states() {
    const bool support = m_dice.oneIn(2);
    for (int n = m_dice.from(2, 4); n > 0; --n) {
        Dress dress;
        for (size_t i = 0; i < (support ? 2U : 1U); ++i) {
            dress.type[i] = m_dice.below(2);
            dress.family[i] = m_dice.below(2);
        }
        m_limits.states.push_back(dress);
    }
    m_limits.nozzles = m_problem.scarceNozzles;
    m_limits.strong = m_dice.oneIn(4);
    m_limits.impossibleOneIn = m_dice.oneIn(3) ? 6 : 60;
    for (int p = 0; p < m_printerCount; ++p)
        m_limits.unattended.push_back(m_dice.oneIn(7));
}

JobNumbers Builder::job(int index) {
    JobNumbers job;
    job.id = "J" + std::to_string(index);
    if (m_dice.oneIn(2))
        job.release = m_dice.from(-60, 200);
    if (!m_dice.oneIn(3))
        job.due = m_dice.from(-30, 300);
    job.lateCostPerHour = m_dice.below(3) * 137;
    job.holdingCostPerHour = m_dice.below(3) * 50;
    for (int n = m_dice.from(1, 3); n > 0; --n) {
        VariantNumbers variant;
        variant.name = job.id + "-" + std::to_string(n);
        for (int p = 0; p < m_printerCount; ++p) {
            variant.print.push_back(m_dice.oneIn(12) ? -1 : m_dice.from(1, 60));
            variant.whyNot.push_back(variant.print.back() < 0 ? "does not fit" : "");
        }
        for (auto& life : variant.life)
            life = m_dice.below(6);
        job.variants.push_back(variant);
    }
    return job;
}

void Builder::jobs() {
    for (int n = m_dice.from(3, 7), j = 0; j < n; ++j)
        m_problem.jobs.push_back(job(j));
}

// A job that nobody uses yet; -1 if by chance there is none.
int Builder::someJob(bool printable, int printer) {
    const int job = m_dice.below(static_cast<int>(m_problem.jobs.size()));
    if (m_used.contains(job))
        return -1;
    const auto& variants = m_problem.jobs[static_cast<size_t>(job)].variants;
    if (printable && std::any_of(variants.begin(), variants.end(),
                                 [&](const VariantNumbers& v) { return v.print[static_cast<size_t>(printer)] < 0; }))
        return -1;
    m_used.insert(job);
    return job;
}

void Builder::runs(PrinterNumbers& printer) {
    printer.partLies = true;
    printer.runningJob = m_dice.oneIn(4) ? -1 : someJob(false, 0);
    printer.runningVariant = printer.runningJob < 0 ? -1 : 0;
    printer.runningStart = -m_dice.from(1, 100);
    printer.runningEnd = m_dice.oneIn(3)
                             ? printer.runningStart + m_dice.below(static_cast<int>(1 - printer.runningStart))
                             : m_dice.from(0, 80);
    if (m_dice.oneIn(60))
        printer.runningEnd = never;
}

void Builder::session(PrinterNumbers& printer, int p) {
    printer.session = true;
    printer.sessionJob = m_dice.oneIn(3) ? -1 : someJob(true, p);
    printer.sessionVariant = printer.sessionJob < 0 ? -1 : 0;
    if (printer.partLies && m_dice.oneIn(2))
        printer.sessionWork.push_back(m_changes->work(m_dice, Kind::PartRemoval, p, 6));
    for (int n = m_dice.below(4); n > 0; --n) {
        Work work = m_changes->work(m_dice, m_dice.oneIn(3) ? Kind::Waiting : Kind::HandsOn, p, 12);
        if (work.kind == Kind::HandsOn && m_dice.oneIn(3))
            work.removes[static_cast<size_t>(m_dice.below(2))] = true;
        else if (work.kind == Kind::HandsOn && m_dice.oneIn(3))
            work.mounts = true;
        printer.sessionWork.push_back(work);
    }
    const bool any = printer.sessionJob < 0;
    printer.sessionState = any ? m_dice.below(static_cast<int>(m_limits.states.size()))
                               : m_changes->wanted(printer.sessionJob, printer.sessionVariant);
}

void Builder::printers() {
    for (int p = 0; p < m_printerCount; ++p) {
        PrinterNumbers printer;
        printer.id = "bay " + std::to_string(p + 1);
        printer.state = m_dice.below(static_cast<int>(m_limits.states.size()));
        printer.hourlyRate = m_dice.below(3) * 725;
        printer.nozzleRemoval = m_dice.below(8);
        printer.removalPeople = m_dice.from(0, 2);
        if (m_dice.oneIn(3))
            runs(printer);
        if (m_dice.oneIn(5))
            session(printer, p);
        Minute at = m_dice.from(-20, 60);
        for (int n = m_dice.oneIn(3) ? m_dice.from(1, 3) : 0; n > 0; --n) {
            printer.down.push_back({at, at + m_dice.from(1, 60)});
            at = printer.down.back().to + m_dice.from(1, 90);
        }
        if (!printer.down.empty() && m_dice.oneIn(15))
            printer.down.back().to = never;
        m_problem.printers.push_back(printer);
    }
}

void Builder::nozzles() {
    const auto piece = [&](int type, int family) {
        NozzlePiece nozzle;
        nozzle.serial = "N" + std::to_string(m_problem.nozzles.size());
        nozzle.type = type;
        nozzle.family = m_dice.oneIn(4) ? -1 : family;
        if (!m_dice.oneIn(4))
            nozzle.life = m_dice.below(14);
        return nozzle;
    };
    for (int p = 0; p < m_printerCount; ++p) {
        PrinterNumbers& printer = m_problem.printers[static_cast<size_t>(p)];
        const Dress& dress = m_limits.states[static_cast<size_t>(printer.state)];
        for (int i = 0; i < 2; ++i) {
            if (dress.type[static_cast<size_t>(i)] < 0 || m_dice.oneIn(10))
                continue;
            printer.mounted[static_cast<size_t>(i)] = static_cast<int>(m_problem.nozzles.size());
            m_problem.nozzles.push_back(
                piece(dress.type[static_cast<size_t>(i)], dress.family[static_cast<size_t>(i)]));
            m_problem.nozzles.back().printer = p;
            m_problem.nozzles.back().position = i;
        }
    }
    for (int n = m_dice.below(6); n > 0; --n)
        m_problem.nozzles.push_back(piece(m_dice.below(2), m_dice.below(2)));
    // Now and then an open session has one on its table.
    for (PrinterNumbers& printer : m_problem.printers)
        for (size_t i = 0; i < 2; ++i) {
            if (!printer.session || !m_dice.oneIn(3))
                continue;
            const Dress& wanted = m_limits.states[static_cast<size_t>(printer.sessionState)];
            if (wanted.type[i] < 0)
                continue;
            printer.sessionNozzles[i] = static_cast<int>(m_problem.nozzles.size());
            m_problem.nozzles.push_back(piece(wanted.type[i], wanted.family[i]));
        }
}

Orders Builder::orders() {
    Orders orders;
    orders.printers.resize(static_cast<size_t>(m_printerCount));
    orders.locked.assign(m_problem.jobs.size(), 0);
    std::vector<int> jobs;
    for (int j = 0; j < static_cast<int>(m_problem.jobs.size()); ++j)
        if (!m_used.contains(j))
            jobs.push_back(j);
    for (size_t i = jobs.size(); i > 1; --i)
        std::swap(jobs[i - 1], jobs[static_cast<size_t>(m_dice.below(static_cast<int>(i)))]);
    // Now and then one printer has nothing to do, and can give its nozzles away.
    const int free = m_dice.oneIn(3) ? m_dice.below(m_printerCount) : -1;
    for (const int j : jobs) {
        const int p = m_dice.below(m_printerCount);
        const int variants = static_cast<int>(m_problem.jobs[static_cast<size_t>(j)].variants.size());
        if (m_dice.oneIn(14))
            orders.leftOut.push_back(j);
        else
            orders.printers[static_cast<size_t>(p == free ? (p + 1) % m_printerCount : p)].push_back(
                {j, m_dice.below(variants)});
    }
    std::sort(orders.leftOut.begin(), orders.leftOut.end());
    return orders;
}

RandomShop Builder::build() {
    m_printerCount = m_dice.from(2, 4);
    m_problem.scarceNozzles = !m_dice.oneIn(3);
    tools();
    crew();
    states();
    jobs();
    m_changes = std::make_shared<RandomChanges>(m_seed, m_limits);
    printers();
    if (m_problem.scarceNozzles)
        nozzles();
    m_problem.changes = m_changes;
    RandomShop shop;
    shop.orders = orders();
    shop.otherOrders = orders();
    shop.problem = m_problem;
    return shop;
}

} // namespace

RandomShop randomShop(std::uint64_t seed) {
    return Builder(seed).build();
}

} // namespace interlude::tests
