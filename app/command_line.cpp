#include "app/command_line.h"

#include "app/call.h"
#include "app/verbs/verbs.h"

#include <QApplication>

#include <cstdio>

namespace interlude::app {

namespace {

FleetOptions fleetOf(const Call& call) { return {QString::fromStdString(call.folder), QString::fromStdString(call.ledger)}; }

bool hasDisplay() {
    return !qEnvironmentVariableIsEmpty("DISPLAY") || !qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY");
}

/// The windows and the printing need Qt's application object; without a display they draw offscreen.
void prepareDisplay() {
    if (!hasDisplay() && qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
}

PlanOptions planOptions(const Call& call) {
    PlanOptions o;
    o.fleet = fleetOf(call);
    o.goal = QString::fromStdString(call.goal);
    o.seconds = call.seconds;
    if (call.iterations) o.iterations = *call.iterations;
    o.seed = call.seed;
    o.now = QString::fromStdString(call.now);
    o.json = QString::fromStdString(call.json);
    o.ics = QString::fromStdString(call.ics);
    o.csv = QString::fromStdString(call.csv);
    o.progress = call.progress;
    return o;
}

int dispatch(const Call& call) {
    const std::string& verb = call.verb;
    const FleetOptions fleet = fleetOf(call);
    if (verb == "plan") return plan(planOptions(call));
    if (verb == "worth") return worth(fleet, QString::fromStdString(call.job));
    if (verb == "new") return newFleet(QString::fromStdString(call.folder));
    if (verb == "check") return check(fleet);
    if (verb == "trace") return trace(fleetOf(call), QString::fromStdString(call.what), QString::fromStdString(call.id));
    if (verb == "verify") return verify(fleet, QString::fromStdString(call.hash));
    if (verb == "import")
        return importCsv({fleet, QString::fromStdString(call.what), QString::fromStdString(call.file),
                          QString::fromStdString(call.who), call.dryRun});
    if (verb == "export") return exportFleet(fleet, QString::fromStdString(call.out));
    if (verb == "backup") return backup(fleet, QString::fromStdString(call.out));
    if (verb == "restore") return restore({fleet, QString::fromStdString(call.backup), call.replaceNewer});
    if (verb == "rehearse") return rehearse(fleet, QString::fromStdString(call.out));
    if (verb == "changeover")
        return changeover({fleet, QString::fromStdString(call.printer), QString::fromStdString(call.to),
                           QString::fromStdString(call.variant), QString::fromStdString(call.json)});
    if (verb == "record")
        return record({fleet, call.session ? std::optional<qint64>(*call.session) : std::nullopt,
                       QString::fromStdString(call.pdf), call.letter});
    return openWindow(fleet);
}

} // namespace

int run(int argc, char** argv) {
    const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
    const ReadCall read = readCall(words, hasDisplay());
    if (!read.call) {
        std::fputs(read.out.c_str(), stdout);
        std::fputs(read.err.c_str(), stderr);
        return read.exitCode;
    }
    prepareDisplay();
    // One application object for all verbs: printing needs fonts, and it costs a text verb some milliseconds only.
    QApplication qt(argc, argv);
    QApplication::setApplicationName(QStringLiteral("interlude"));
    QApplication::setApplicationVersion(QStringLiteral(INTERLUDE_VERSION));
    try {
        return dispatch(*read.call);
    } catch (const std::exception& e) {
        std::fprintf(stderr, "interlude: this should not have happened: %s\n", e.what());
        return 3;
    }
}

} // namespace interlude::app
