#include "tests/benchmarks/fleet_folder.h"

#include "model/planning/plans/plan_report.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QProcess>
#include <QTextStream>

#include <cstdio>

namespace interlude::bench {

namespace {

const QString now = QStringLiteral("2026-01-01T00:00");

QString at(planning::Minute m) {
    return QDateTime(QDate(2026, 1, 1), QTime(0, 0), Qt::UTC).addSecs(60 * m).toString(QStringLiteral("yyyy-MM-ddTHH:mm"));
}

QString label(int i) {
    return QStringLiteral("L%1").arg(i);
}

bool write(const QString& file, const QString& text) {
    QFile f(file);
    if (f.open(QIODevice::WriteOnly) && f.write(text.toUtf8()) >= 0 && f.flush()) return true;
    std::fprintf(stderr, "%s cannot be written: %s\n", qPrintable(file), qPrintable(f.errorString()));
    return false;
}

QString fleetText(const Instance& in) {
    QString text;
    QTextStream out(&text);
    out << "format: 1\nid: " << QString::fromStdString(in.name).toLower().replace(QLatin1Char('_'), QLatin1Char('-'))
        << "\nname: A public instance\ntime-zone: UTC\ncurrency: EUR\ncrew: unlimited\nprinter-types:\n"
        << "  - {id: plain, part-removal-minutes: 0, hourly-rate: 10}\nprinters:\n";
    for (int p = 0; p < in.printers; ++p)
        out << "  - {id: bay-" << p + 1 << ", type: plain, measured-changeovers: bay-" << p + 1 << ".csv, unattended: true}\n";
    return text;
}

QString jobsText(const Instance& in) {
    QString text = QStringLiteral("jobs:\n");
    QTextStream out(&text);
    for (int j = 0; j < in.jobs; ++j) {
        const auto n = static_cast<std::size_t>(j);
        out << "  - {id: " << 1000 + j << ", setup: " << label(j) << ", print-minutes: {";
        for (int p = 0; p < in.printers; ++p)
            out << (p ? ", " : "") << "bay-" << p + 1 << ": " << in.print[n][static_cast<std::size_t>(p)];
        out << "}";
        if (!in.due.empty()) out << ", due: " << at(in.due[n]);
        if (!in.weight.empty()) out << ", late-cost-per-hour: " << in.weight[n];
        out << "}\n";
    }
    return text;
}

QString tableText(const Instance& in, int printer) {
    QString text = QStringLiteral("from,to,minutes\n");
    QTextStream out(&text);
    const auto& setup = in.setup[static_cast<std::size_t>(printer)];
    for (std::size_t from = 0; from < setup.size(); ++from)
        for (std::size_t to = 0; to < setup[from].size(); ++to)
            if (from != to && setup[from][to] >= 0)
                out << label(static_cast<int>(from)) << ',' << label(static_cast<int>(to)) << ',' << setup[from][to] << '\n';
    return text;
}

} // namespace

bool writeFleetFolder(const Instance& in, const QString& folder) {
    const QDir dir(folder);
    QString setups = QStringLiteral("setups:\n");
    bool good = dir.exists() && write(dir.filePath(QStringLiteral("fleet.yaml")), fleetText(in)) &&
                write(dir.filePath(QStringLiteral("jobs.yaml")), jobsText(in));
    for (int p = 0; good && p < in.printers; ++p) {
        setups += QStringLiteral("  - {printer: bay-%1, label: %2}\n").arg(p + 1).arg(label(in.jobs));
        good = write(dir.filePath(QStringLiteral("bay-%1.csv").arg(p + 1)), tableText(in, p));
    }
    return good && write(dir.filePath(QStringLiteral("setups.yaml")), setups);
}

Shipped runShipped(const QString& program, const Instance& in, const QString& folder, double seconds,
                   unsigned long long seed) {
    QProcess p;
    p.setProcessChannelMode(QProcess::ForwardedErrorChannel);
    p.start(program, {QStringLiteral("plan"), folder, QStringLiteral("--ledger"),
                      QStringLiteral("sqlite:") + folder + QStringLiteral("/none.sqlite"), QStringLiteral("--goal"),
                      planning::word(in.goal), QStringLiteral("--seconds"), QString::number(seconds),
                      QStringLiteral("--seed"), QString::number(seed), QStringLiteral("--now"), now,
                      QStringLiteral("--json"), QStringLiteral("-")});
    Shipped out;
    if (!p.waitForFinished(-1) || p.exitStatus() != QProcess::NormalExit || p.exitCode() != 0) return out;
    const QJsonObject o = QJsonDocument::fromJson(p.readAllStandardOutput()).object();
    out.ran = !o.isEmpty();
    out.value = qRound64(o[QStringLiteral("value")].toDouble());
    out.notPlaced = static_cast<int>(o[QStringLiteral("not_placed")].toArray().size());
    out.seconds = o[QStringLiteral("seconds")].toDouble();
    out.iterations = o[QStringLiteral("iterations")].toInteger();
    return out;
}

} // namespace interlude::bench
