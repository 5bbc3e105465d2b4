#include "views/plan/board_rows.h"

#include <algorithm>

namespace interlude {

using planning::Kind;
using planning::Minute;
using planning::never;
using planning::TimedJob;

namespace {

class RowMaker {
public:
    RowMaker(const planning::ShopProblem& problem, const planning::Orders& orders,
             const QList<planning::Reservation>& reservations)
        : m_problem(problem), m_orders(orders), m_place(problem.problem.jobs.size(), -1),
          m_short(problem.problem.jobs.size(), 0), m_dry(problem.problem.jobs.size(), 0) {
        for (const auto& list : orders.printers)
            for (std::size_t i = 0; i < list.size(); ++i) m_place[at(list[i].job)] = static_cast<int>(i);
        for (const planning::Reservation& r : reservations) {
            const int job = problem.jobNumbers.value(r.job, -1);
            if (job < 0) continue;
            m_short[at(job)] |= r.isShort ? 1 : 0;
            m_dry[at(job)] |= r.dryFirst ? 1 : 0;
        }
    }

    BoardRow row(const std::vector<TimedJob>& list, std::size_t printer) const {
        BoardRow out;
        out.down = m_problem.problem.printers[printer].down;
        out.orderLength = m_orders.printers[printer].size();
        out.blocks.reserve(list.size());
        for (const TimedJob& j : list) addBlock(out, j);
        std::sort(out.dues.begin(), out.dues.end());
        std::sort(out.preparations.begin(), out.preparations.end(),
                  [](const planning::Span& a, const planning::Span& b) { return a.from < b.from; });
        addBands(out);
        return out;
    }

private:
    static std::size_t at(int index) { return static_cast<std::size_t>(index); }
    static Minute bounded(Minute m) { return std::clamp<Minute>(m, -never / 1024, never / 1024); }

    void addBlock(BoardRow& row, const TimedJob& j) const {
        BoardBlock b;
        b.job = j.job;
        b.variant = j.variant;
        b.running = j.running;
        b.session = j.session;
        b.printStart = bounded(j.job < 0 && !j.running ? j.changeoverDone : j.printStart);
        b.printEnd = bounded(std::max(b.printStart, j.printEnd));
        b.from = b.printStart;
        b.to = b.printEnd;
        b.firstPiece = row.pieces.size();
        for (const planning::TimedWork& w : j.work) {
            if (w.work->kind == Kind::Preparation) {
                row.preparations.push_back({w.start, w.end});
                continue;
            }
            row.pieces.push_back({w.work->kind, w.start, w.end, w.work->people});
            b.from = std::min(b.from, w.start);
            b.to = std::max(b.to, bounded(w.end));
        }
        b.pieces = row.pieces.size() - b.firstPiece;
        if (j.job >= 0) addJob(row, b, j);
        row.blocks.push_back(b);
    }

    void addJob(BoardRow& row, BoardBlock& b, const TimedJob& j) const {
        const planning::JobNumbers& job = m_problem.problem.jobs[at(j.job)];
        if (!j.running && !j.session) b.place = m_place[at(j.job)];
        if (j.variant >= 0) b.family = job.variants[at(j.variant)].family;
        b.locked = m_orders.locked[at(j.job)] != 0;
        b.isShort = m_short[at(j.job)] != 0;
        b.dryFirst = m_dry[at(j.job)] != 0;
        b.due = job.due;
        if (job.due && j.complete < never) b.late = std::max<Minute>(0, j.complete - *job.due);
        if (job.due) row.dues.emplace_back(bounded(*job.due), static_cast<int>(row.blocks.size()));
    }

    void addBands(BoardRow& row) const {
        const auto& blocks = row.blocks;
        for (std::size_t i = 0; i < blocks.size();) {
            BoardBand band{blocks[i].family, static_cast<int>(i), static_cast<int>(i), 0, blocks[i].printStart, blocks[i].printEnd};
            std::size_t next = i + 1;
            for (; next < blocks.size() && blocks[i].family >= 0 && blocks[next].family == blocks[i].family; ++next) {
                band.last = static_cast<int>(next);
                band.to = blocks[next].printEnd;
                band.setups += setupOf(blocks[next]) == setupOf(blocks[next - 1]) ? 0 : 1;
            }
            if (band.last > band.first) row.bands.push_back(band);
            i = next;
        }
    }
    const std::string& setupOf(const BoardBlock& b) const {
        return m_problem.problem.jobs[at(b.job)].variants[at(b.variant)].setup;
    }

    const planning::ShopProblem& m_problem;
    const planning::Orders& m_orders;
    std::vector<int> m_place;
    std::vector<char> m_short, m_dry;
};

} // namespace

std::vector<BoardRow> boardRows(const planning::ShopProblem& problem, const planning::Timetable& timetable,
                                const planning::Orders& orders, const QList<planning::Reservation>& reservations) {
    const RowMaker maker(problem, orders, reservations);
    std::vector<BoardRow> out;
    out.reserve(timetable.printers.size());
    for (std::size_t p = 0; p < timetable.printers.size(); ++p) out.push_back(maker.row(timetable.printers[p], p));
    return out;
}

Minute lastEnd(const std::vector<BoardRow>& rows) {
    Minute end = 0;
    for (const BoardRow& row : rows)
        if (!row.blocks.empty()) end = std::max(end, row.blocks.back().to);
    return end;
}

} // namespace interlude
