#include "views/plan/board_sentences.h"

#include "views/plan/board.h"
#include "views/plan/plan_words.h"
#include "views/words/words.h"

#include <cmath>

namespace interlude::board {

using planning::Kind;
using planning::Minute;

namespace {

QString tr(const char* text) {
    return Board::tr(text);
}

QString plural(int n, const char* one, const char* many) {
    return n == 1 ? tr(one) : tr(many).arg(n);
}

/// "+48 min", "−1 h 05 min", "±0".
QString signedMinutes(Minute m) {
    if (m == 0) return tr("the same");
    return (m > 0 ? QStringLiteral("+") : QStringLiteral("−")) + words::minutes(Minutes(std::abs(m)));
}

QString signedMoney(planning::Cents c, const QString& currency) {
    if (c == 0) return tr("cost the same");
    if (std::abs(c) >= 100) return QStringLiteral("%1 %2").arg(plan_words::moneyChange(c), currency);
    const QString amount = QString::number(static_cast<double>(std::abs(c)) / 100.0, 'f', 2);
    return QStringLiteral("%1%2 %3").arg(c > 0 ? QStringLiteral("+") : QStringLiteral("−"), amount, currency);
}

QString lateness(const planning::Price& p) {
    if (p.lateJobs > 0) return plural(p.lateJobs, "1 more job late", "%1 more jobs late");
    if (p.lateJobs < 0) return plural(-p.lateJobs, "1 job fewer late", "%1 jobs fewer late");
    if (p.weightedTardiness > 0) return tr("late jobs later");
    if (p.weightedTardiness < 0) return tr("late jobs earlier");
    return tr("lateness the same");
}

QString idOf(const PlanDesk& desk, int job) {
    return job < 0 ? tr("a part") : desk.problem().jobs[job].id;
}

QString printerName(PlanDesk& desk, int row) {
    return plan_words::printer(desk, row);
}

QString time(PlanDesk& desk, Minute m) {
    return desk.bench().shortTime(desk.problem().at(m));
}

} // namespace

QString roughly(Minute m) {
    if (m < 60) return tr("%1 min").arg(m);
    if (m < 10 * 60) return tr("%1 h").arg(words::number(std::round(static_cast<double>(m) / 6.0) / 10.0));
    if (m < 72 * 60) return tr("%1 h").arg((m + 30) / 60);
    return tr("%1 d").arg((m + 12 * 60) / (24 * 60));
}

QString lateText(Minute late) {
    return tr("late %1").arg(roughly(late));
}

QString priceText(const planning::Price& p, const QString& currency) {
    QStringList parts{signedMoney(p.cost, currency), tr("turnaround %1").arg(signedMinutes(p.turnaround)), lateness(p)};
    if (p.notPlaced > 0) parts << plural(p.notPlaced, "1 more job without a place", "%1 more jobs without a place");
    if (p.notPlaced < 0) parts << plural(-p.notPlaced, "1 more job placed", "%1 more jobs placed");
    return parts.join(QStringLiteral(" · "));
}

QString printText(PlanDesk& desk, Minute from, Minute to) {
    return tr("prints %1 to %2").arg(time(desk, from), time(desk, to));
}

QString placeText(PlanDesk& desk, const std::vector<BoardRow>& rows, const DropPlace& place) {
    if (place.row < 0) return {};
    const auto& blocks = rows[static_cast<std::size_t>(place.row)].blocks;
    const QString name = printerName(desk, place.row);
    if (place.before >= static_cast<int>(blocks.size())) return tr("%1, last").arg(name);
    return tr("%1, before %2").arg(name, idOf(desk, blocks[static_cast<std::size_t>(place.before)].job));
}

QString jobsText(const PlanDesk& desk, const std::vector<int>& jobs) {
    if (jobs.empty()) return tr("nothing");
    const QString first = idOf(desk, jobs.front());
    if (jobs.size() == 1) return first;
    if (jobs.size() == 2) return tr("%1 and %2").arg(first, idOf(desk, jobs[1]));
    return tr("%1 and %2 others").arg(first).arg(jobs.size() - 1);
}

namespace {

/// Minutes of hands-on work and of waiting before the print.
QString changeoverLine(PlanDesk& desk, const BoardRow& row, const BoardBlock& b) {
    Minute from = planning::never, to = 0, hands = 0, waits = 0;
    for (std::size_t i = b.firstPiece; i < b.firstPiece + b.pieces; ++i) {
        const BoardPiece& p = row.pieces[i];
        if (p.from >= b.printStart || p.kind == Kind::PartRemoval) continue;
        from = std::min(from, p.from);
        to = std::max(to, p.to);
        (p.people > 0 ? hands : waits) += p.to - p.from;
    }
    if (from >= to) return {};
    return tr("Changeover %1 to %2: hands-on %3, waiting %4")
        .arg(time(desk, from), time(desk, to), words::minutes(Minutes(hands)), words::minutes(Minutes(waits)));
}

QStringList flagWords(const BoardBlock& b) {
    QStringList out;
    if (b.running) out << (b.printEnd > b.printStart ? tr("prints now") : tr("its part lies there"));
    if (b.session) out << tr("in changeover now");
    if (b.locked) out << tr("locked");
    if (b.isShort) out << tr("stock short");
    if (b.dryFirst) out << tr("dry first");
    if (b.late > 0) out << lateText(b.late);
    return out;
}

} // namespace

QString tip(PlanDesk& desk, const BoardRow& row, const BoardBlock& b) {
    QStringList lines;
    if (b.job < 0) {
        lines << (b.session ? tr("A changeover without a job") : tr("A part of no known job lies there"));
    } else {
        const Job& job = desk.problem().jobs[b.job];
        lines << (job.title.isEmpty() ? job.id : tr("%1 · %2").arg(job.id, job.title));
        if (b.variant >= 0)
            lines << words::setupWanted(desk.bench().catalogue(), job.variants[b.variant].setup);
    }
    if (const QString line = changeoverLine(desk, row, b); !line.isEmpty()) lines << line;
    if (b.printEnd > b.printStart)
        lines << tr("Print %1 to %2, %3").arg(time(desk, b.printStart), time(desk, b.printEnd),
                                              words::minutes(Minutes(b.printEnd - b.printStart)));
    if (b.to > b.printEnd) lines << tr("Part out %1").arg(time(desk, b.to));
    if (b.job >= 0 && desk.problem().jobs[b.job].due) lines << tr("Due %1").arg(desk.bench().shortTime(*desk.problem().jobs[b.job].due));
    if (const QStringList flags = flagWords(b); !flags.isEmpty()) lines << flags.join(QStringLiteral(" · "));
    return lines.join(QLatin1Char('\n'));
}

QString summary(PlanDesk& desk, const std::vector<BoardRow>& rows) {
    int jobs = 0;
    for (const BoardRow& row : rows)
        for (const BoardBlock& b : row.blocks) jobs += b.job >= 0 ? 1 : 0;
    QStringList parts{plural(static_cast<int>(rows.size()), "1 printer", "%1 printers"), plural(jobs, "1 job", "%1 jobs")};
    const int late = desk.figures().lateJobs;
    parts << (late == 0 ? tr("none late") : tr("%1 late").arg(late));
    const QString text = parts.join(QStringLiteral(", "));
    return jobs == 0 ? text : tr("%1; the last ends %2").arg(text, time(desk, desk.figures().makespan));
}

QString jobSentence(PlanDesk& desk, const std::vector<BoardRow>& rows, int row, int block) {
    const BoardRow& r = rows[static_cast<std::size_t>(row)];
    const BoardBlock& b = r.blocks[static_cast<std::size_t>(block)];
    QStringList parts{tr("%1 on %2").arg(idOf(desk, b.job), printerName(desk, row))};
    if (b.printEnd > b.printStart) parts << printText(desk, b.printStart, b.printEnd);
    if (b.family >= 0) parts << desk.problem().chamberFamilies.value(b.family);
    parts << flagWords(b);
    return parts.join(QStringLiteral(", "));
}

} // namespace interlude::board
