// The plan of small shops against optima that a general-purpose solver proves: GLPK (glpsol, package glpk-utils), branch and
// cut on the usual mixed-integer formulation: one binary for each "job j directly after i on printer p", completion times tied
// to them by a large constant. The formulation is textbook knowledge, from memory. Where the solver runs out of its time the
// shop is left out and counted.

#include "model/planning/bounds.h"
#include "model/planning/search.h"
#include "tests/harness/run_tests.h"
#include "tests/search/small_shops.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>
#include <QTextStream>

using namespace interlude::planning;
using interlude::tests::longRun;

namespace {

/// A shop as the lines of a model in CPLEX LP format, which glpsol reads.
class Formulation {
public:
    Formulation(const Problem& problem, Goal goal) : m_problem(problem), m_goal(goal) {
        const auto n = static_cast<int>(problem.jobs.size());
        for (const JobNumbers& j : problem.jobs)
            m_large += *std::max_element(j.variants[0].print.begin(), j.variants[0].print.end()) + 100 + j.release.value_or(0);
        for (int p = 0; p < static_cast<int>(problem.printers.size()); ++p)
            for (int i = -1; i < n; ++i)
                for (int j = 0; j < n; ++j)
                    if (i != j) m_arcs.push_back({p, i, j, setup(p, i, j)});
    }

    QString text() const {
        QString out;
        QTextStream s(&out);
        s << "Minimize\n obj: " << objective() << "\nSubject To\n";
        writeRows(s);
        s << "Binary\n";
        for (const Arc& a : m_arcs) s << ' ' << name(a) << '\n';
        s << "End\n";
        return out;
    }

private:
    struct Arc {
        int printer, from, to; ///< from −1: first on the printer
        Minute setup;
    };

    Minute setup(int p, int i, int j) const {
        const PrinterNumbers& printer = m_problem.printers[static_cast<std::size_t>(p)];
        int state = printer.state;
        if (i >= 0) state = m_problem.changes->from(p, state, i, 0, {}).next;
        return m_problem.changes->from(p, state, j, 0, {}).minutes;
    }
    Minute print(int p, int j) const {
        return m_problem.jobs[static_cast<std::size_t>(j)].variants[0].print[static_cast<std::size_t>(p)];
    }
    static QString name(const Arc& a) {
        return QStringLiteral("x%1_%2_%3").arg(a.printer).arg(a.from + 1).arg(a.to + 1);
    }
    QString objective() const {
        QStringList terms;
        if (m_goal == Goal::Makespan) return QStringLiteral("cmax");
        if (m_goal == Goal::Changeover) {
            for (const Arc& a : m_arcs) terms.append(QStringLiteral("%1 %2").arg(a.setup).arg(name(a)));
        } else {
            for (std::size_t j = 0; j < m_problem.jobs.size(); ++j)
                terms.append(QStringLiteral("%1 t%2").arg(m_problem.jobs[j].lateCostPerHour).arg(j + 1));
        }
        return terms.join(QStringLiteral(" + "));
    }
    void writeRows(QTextStream& s) const {
        const auto n = static_cast<int>(m_problem.jobs.size());
        for (int j = 0; j < n; ++j) {
            const JobNumbers& job = m_problem.jobs[static_cast<std::size_t>(j)];
            QStringList once, own;
            for (const Arc& a : m_arcs) {
                if (a.to != j) continue;
                once.append(name(a));
                own.append(QStringLiteral("- %1 %2").arg(print(a.printer, j)).arg(name(a)));
            }
            s << " once" << j << ": " << once.join(QStringLiteral(" + ")) << " = 1\n";
            s << " release" << j << ": c" << j + 1 << ' ' << own.join(QLatin1Char(' ')) << " >= " << job.release.value_or(0) << '\n';
            s << " last" << j << ": cmax - c" << j + 1 << " >= 0\n";
            if (job.due) s << " late" << j << ": t" << j + 1 << " - c" << j + 1 << " >= " << -*job.due << '\n';
        }
        for (int p = 0; p < static_cast<int>(m_problem.printers.size()); ++p) {
            QStringList first;
            for (const Arc& a : m_arcs)
                if (a.printer == p && a.from < 0) first.append(name(a));
            s << " first" << p << ": " << first.join(QStringLiteral(" + ")) << " <= 1\n";
            for (int j = 0; j < n; ++j) {
                QString row;
                for (const Arc& a : m_arcs) {
                    if (a.printer != p) continue;
                    if (a.to == j) row += QStringLiteral(" + ") + name(a);
                    if (a.from == j) row += QStringLiteral(" - ") + name(a);
                }
                s << " flow" << p << '_' << j << ':' << row << " >= 0\n"; // at most one follows where it stands
            }
        }
        int k = 0;
        for (const Arc& a : m_arcs) {
            const Minute length = a.setup + print(a.printer, a.to);
            s << " time" << k++ << ": c" << a.to + 1;
            if (a.from >= 0) s << " - c" << a.from + 1 << " - " << m_large << ' ' << name(a) << " >= " << length - m_large << '\n';
            else s << " - " << length << ' ' << name(a) << " >= 0\n";
        }
    }

    const Problem& m_problem;
    Goal m_goal;
    Minute m_large = 100;
    std::vector<Arc> m_arcs;
};

/// The proved optimum; empty when the solver did not finish.
std::optional<std::int64_t> proved(const QString& model, int seconds) {
    QTemporaryDir dir;
    const QString in = dir.filePath(QStringLiteral("shop.lp")), out = dir.filePath(QStringLiteral("shop.sol"));
    QFile file(in);
    if (!file.open(QIODevice::WriteOnly) || file.write(model.toUtf8()) < 0) return {};
    file.close();
    QProcess p;
    p.start(QStringLiteral("glpsol"), {QStringLiteral("--lp"), in, QStringLiteral("--tmlim"), QString::number(seconds),
                                       QStringLiteral("--cuts"), QStringLiteral("-w"), out});
    if (!p.waitForFinished(1000 * (seconds + 20))) return {};
    QFile solution(out);
    if (!solution.open(QIODevice::ReadOnly)) return {};
    for (const QByteArray& line : solution.readAll().split('\n')) {
        const QList<QByteArray> words = line.simplified().split(' ');
        if (words.size() >= 6 && words[0] == "s" && words[1] == "mip")
            return words[4] == "o" ? std::optional<std::int64_t>(std::llround(words[5].toDouble())) : std::nullopt;
    }
    return {};
}

} // namespace

class SolverTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void thePlanIsTheProvedOptimum_data() {
        QTest::addColumn<int>("form");
        QTest::addColumn<int>("goal");
        QTest::newRow("one printer with due dates") << static_cast<int>(Form::DueDates) << static_cast<int>(Goal::Tardiness);
        QTest::newRow("several printers, makespan") << static_cast<int>(Form::Makespan) << static_cast<int>(Goal::Makespan);
        QTest::newRow("changeovers only") << static_cast<int>(Form::Changeovers) << static_cast<int>(Goal::Changeover);
        QTest::newRow("release dates") << static_cast<int>(Form::Releases) << static_cast<int>(Goal::Tardiness);
    }
    void thePlanIsTheProvedOptimum() {
        QFETCH(int, form);
        QFETCH(int, goal);
        const int shops = longRun() ? 85 : 12;
        int compared = 0;
        for (int seed = 1; compared < shops && seed <= 4 * shops; ++seed) {
            const Problem problem = smallShop(static_cast<Form>(form), 5000 + static_cast<std::uint64_t>(seed));
            if (problem.jobs.size() > 5) continue; // small enough to be proved within seconds
            const Goal g = static_cast<Goal>(goal);
            const auto best = proved(Formulation(problem, g).text(), 10);
            if (!best) continue;
            ++compared;
            SearchOptions options;
            options.goal = g;
            options.iterations = 5000;
            const SearchResult found = improve(problem, *problem.changes, options);
            const QByteArray where = "seed " + QByteArray::number(seed);
            QCOMPARE(found.worth.notPlaced, 0);
            QVERIFY2(found.worth.value == *best, where + ": " + QByteArray::number(qint64(found.worth.value)) + " instead of " +
                                                     QByteArray::number(qint64(*best)));
            const auto bound = lowerBound(problem, *problem.changes, g, std::vector<char>(problem.jobs.size(), 1));
            if (bound) QVERIFY2(*bound <= *best, where);
        }
        qInfo("%d shops proved by the solver and compared", compared);
        QVERIFY2(compared >= shops, "too few were proved in time");
    }
};
INTERLUDE_TEST(SolverTest)
#include "solver_test.moc"
