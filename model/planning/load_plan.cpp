#include "model/planning/load_plan.h"

#include <algorithm>

namespace interlude::planning {

namespace {

constexpr std::int32_t impossibleGap = 10'000'000;
constexpr std::size_t largestTable = 12'000'000;
constexpr Minute longestGap = 1'000'000;

/// On one printer: from print start to part out by job, and what it wears after each; false where a number is too
/// large.
class PrinterGaps {
public:
    PrinterGaps(PrinterLine& line, int printer, const LineState& begin, LoadNumbers& out)
        : m_table(line.table()), m_printer(printer), m_begin(begin), m_out(out) {}

    bool fill() {
        const auto n = static_cast<std::size_t>(m_out.jobs);
        m_some.assign(n, nullptr);
        std::vector<int> rows{m_begin.row};
        for (std::size_t k = 0; k < rows.size(); ++k)
            for (std::size_t j = 0; j < n; ++j) {
                const Brief& b = m_table.from(m_printer, rows[k], m_out.option[j]);
                if (!b.possible || m_some[j])
                    continue;
                m_some[j] = &b;
                if (std::find(rows.begin(), rows.end(), b.next) == rows.end())
                    rows.push_back(b.next);
            }
        for (int i = 0; i <= m_out.jobs; ++i)
            for (int j = 0; j < m_out.jobs; ++j)
                if (!fillOne(i, j))
                    return false;
        return true;
    }

private:
    bool fillOne(int i, int j) {
        const bool first = i == m_out.jobs;
        const Brief* before = first ? nullptr : m_some[static_cast<std::size_t>(i)];
        std::int32_t gap = impossibleGap;
        if (i != j && (first || before)) {
            const Brief& b =
                m_table.from(m_printer, first ? m_begin.row : before->next, m_out.option[static_cast<std::size_t>(j)]);
            const Minute busy = first ? m_begin.ready - m_begin.printStart : before->print + before->removal;
            const Minute minutes = std::max<Minute>(0, b.preparation - busy) + b.minutes + b.print + b.removal;
            if (b.possible && minutes > longestGap)
                return false;
            if (b.possible)
                gap = static_cast<std::int32_t>(minutes);
        }
        m_out.gap.push_back(gap);
        return true;
    }

    ChangeoverTable& m_table;
    int m_printer;
    const LineState& m_begin;
    LoadNumbers& m_out;
    std::vector<const Brief*> m_some;
};

} // namespace

std::optional<LoadNumbers> loadNumbers(PrinterLine& line, const Orders& orders) {
    ChangeoverTable& table = line.table();
    const Problem& problem = table.problem();
    LoadNumbers out;
    out.printers = static_cast<int>(problem.printers.size());
    if (!problem.printersApart() || !table.changes().pairwise() || out.printers < 2)
        return std::nullopt;
    std::vector<LineState> begins;
    LineCost ignored;
    Minute earliest = never;
    for (int p = 0; p < out.printers; ++p) {
        const auto& list = orders.printers[static_cast<std::size_t>(p)];
        std::size_t from = 0;
        for (std::size_t i = 0; i < list.size(); ++i)
            if (orders.locked[static_cast<std::size_t>(list[i].job)])
                from = i + 1;
        LineState state = line.begin(p);
        for (std::size_t i = 0; i < from; ++i)
            line.append(p, table.optionOf(list[i]), state, ignored);
        for (std::size_t i = from; i < list.size(); ++i)
            out.option.push_back(table.optionOf(list[i]));
        begins.push_back(state);
        out.begin.push_back(state.ready);
        out.fixed.push_back(from);
        earliest = std::min(earliest, state.ready);
    }
    out.jobs = static_cast<int>(out.option.size());
    for (const int option : out.option) {
        const JobNumbers& job = problem.jobs[static_cast<std::size_t>(table.jobOf(option))];
        if (job.variants.size() > 1 || job.release.value_or(0) > earliest)
            return std::nullopt;
    }
    const auto size = static_cast<std::size_t>(out.jobs + 1);
    if (out.jobs < 2 || size * size * static_cast<std::size_t>(out.printers) > largestTable)
        return std::nullopt;
    // Row after row, each one column longer than there are jobs: the last says that nothing follows.
    for (int p = 0; p < out.printers; ++p)
        if (!PrinterGaps(line, p, begins[static_cast<std::size_t>(p)], out).fill())
            return std::nullopt;
    return out;
}

LoadPlan::LoadPlan(const LoadNumbers& numbers) : m_numbers(numbers), m_n(numbers.jobs) {
    const auto nodes = static_cast<std::size_t>(m_n + numbers.printers);
    m_next.assign(nodes, -1);
    m_before.assign(nodes, -1);
    m_printer.assign(nodes, -1);
    m_load = numbers.begin;
    for (int p = 0; p < numbers.printers; ++p)
        m_printer[static_cast<std::size_t>(m_n + p)] = p;
}

void LoadPlan::set(const std::vector<std::vector<int>>& orders) {
    m_load = m_numbers.begin;
    m_count.assign(m_load.size(), 0);
    for (int p = 0; p < m_numbers.printers; ++p) {
        m_next[static_cast<std::size_t>(m_n + p)] = -1;
        int last = m_n + p;
        for (const int job : orders[static_cast<std::size_t>(p)]) {
            insert(job, last);
            last = job;
        }
    }
    rank();
}

std::vector<std::vector<int>> LoadPlan::orders() const {
    std::vector<std::vector<int>> out(m_load.size());
    for (int p = 0; p < m_numbers.printers; ++p)
        for (int k = next(m_n + p); k >= 0; k = next(k))
            out[static_cast<std::size_t>(p)].push_back(k);
    return out;
}

void LoadPlan::insert(int job, int behind) {
    const int p = printerOf(behind), after = next(behind);
    m_load[static_cast<std::size_t>(p)] += insertion(job, behind);
    m_next[static_cast<std::size_t>(behind)] = job;
    m_before[static_cast<std::size_t>(job)] = behind;
    m_next[static_cast<std::size_t>(job)] = after;
    if (after >= 0)
        m_before[static_cast<std::size_t>(after)] = job;
    m_printer[static_cast<std::size_t>(job)] = p;
    ++m_count[static_cast<std::size_t>(p)];
}

void LoadPlan::remove(int job) {
    const int behind = before(job), after = next(job);
    m_load[static_cast<std::size_t>(printerOf(job))] -= removal(job);
    --m_count[static_cast<std::size_t>(printerOf(job))];
    m_next[static_cast<std::size_t>(behind)] = after;
    if (after >= 0)
        m_before[static_cast<std::size_t>(after)] = behind;
}

Minute LoadPlan::insertion(int job, int behind) const {
    const int p = printerOf(behind), after = next(behind);
    return gap(p, behind, job) + gap(p, job, after) - gap(p, behind, after);
}

Minute LoadPlan::removal(int job) const {
    const int p = printerOf(job), behind = before(job), after = next(job);
    return gap(p, behind, job) + gap(p, job, after) - gap(p, behind, after);
}

LoadPlan::Spot LoadPlan::bestPlace(int job, int printer, int without) const {
    Spot best;
    for (int k = m_n + printer; k >= 0;) {
        int after = next(k);
        if (after == without && after >= 0)
            after = next(after);
        const Minute more = gap(printer, k, job) + gap(printer, job, after) - gap(printer, k, after);
        if (more < best.more)
            best = {k, more};
        k = after;
    }
    return best;
}

Minute LoadPlan::segmentMoved(int first, int last, int behind) const {
    const int p = printerOf(first), a = before(first), b = next(last), c = next(behind);
    return gap(p, a, b) - gap(p, a, first) - gap(p, last, b) + gap(p, behind, first) + gap(p, last, c) -
           gap(p, behind, c);
}

void LoadPlan::moveSegment(int first, int last, int behind) {
    m_load[static_cast<std::size_t>(printerOf(first))] += segmentMoved(first, last, behind);
    const auto join = [&](int a, int b) {
        m_next[static_cast<std::size_t>(a)] = b;
        if (b >= 0)
            m_before[static_cast<std::size_t>(b)] = a;
    };
    const int c = next(behind);
    join(before(first), next(last));
    join(behind, first);
    join(last, c);
    rank();
}

void LoadPlan::move(int job, int behind) {
    remove(job);
    insert(job, behind);
    rank();
}

void LoadPlan::rank() {
    m_longest = {};
    m_sum = 0;
    for (int p = 0; p < m_numbers.printers; ++p) {
        const Minute m = load(p);
        m_sum += m;
        if (m <= m_longest[2].load)
            continue;
        m_longest[2] = {p, m};
        if (m > m_longest[1].load)
            std::swap(m_longest[1], m_longest[2]);
        if (m > m_longest[0].load)
            std::swap(m_longest[0], m_longest[1]);
    }
}

} // namespace interlude::planning
