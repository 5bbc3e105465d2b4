#include "app/command_line.h"

#include "app/verbs/verbs.h"

#include <QApplication>

#include <CLI/CLI.hpp>

#include <cstdio>
#include <string>

namespace interlude::app {

namespace {

/// What the options write into; CLI11 fills std::string.
struct Call {
    std::string folder, ledger, printer, to, variant, json, pdf, out, hash;
    std::string job, goal = "cost", now, ics, csv;
    qint64 session = 0, iterations = 0;
    double seconds = 0;
    quint64 seed = 1;
    bool letter = false, progress = false;

    FleetOptions fleet() const { return {QString::fromStdString(folder), QString::fromStdString(ledger)}; }
};

CLI::App* fleetVerb(CLI::App& app, Call& call, const char* name, const char* what) {
    CLI::App* verb = app.add_subcommand(name, what);
    verb->add_option("FLEET", call.folder, "the fleet folder")->required();
    verb->add_option("--ledger", call.ledger, "where the ledger is: sqlite:PATH");
    return verb;
}

/// The windows and the printing need Qt's application object; without a display they draw offscreen.
void prepareDisplay() {
    if (qEnvironmentVariableIsEmpty("DISPLAY") && qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY") &&
        qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
}

void definePlan(CLI::App& app, Call& call) {
    CLI::App* plan = fleetVerb(app, call, "plan", "which job, which printer, which order");
    plan->add_option("--goal", call.goal, "cost (as a rule), changeover, tardiness or makespan")
        ->check(CLI::IsMember({"cost", "changeover", "tardiness", "makespan"}));
    auto* seconds = plan->add_option("--seconds", call.seconds, "how long to search; 10 where nothing is said")
                        ->check(CLI::PositiveNumber);
    plan->add_option("--iterations", call.iterations, "how many moves to try instead: the same plan each time")
        ->check(CLI::NonNegativeNumber)->excludes(seconds);
    plan->add_option("--seed", call.seed, "another seed, another search; 1 where nothing is said");
    plan->add_option("--now", call.now, "plan from this moment on, like 2026-03-02T06:30");
    plan->add_option("--json", call.json, "also write JSON to this file (- for standard output instead of text)");
    plan->add_option("--ics", call.ics, "also write an iCalendar file, one event a changeover");
    plan->add_option("--csv", call.csv, "also write a table, one line a job");
    plan->add_flag("--progress", call.progress, "say on standard error how the search goes");
}

PlanOptions planOptions(const CLI::App& verb, const Call& call) {
    PlanOptions o;
    o.fleet = call.fleet();
    o.goal = QString::fromStdString(call.goal);
    if (verb.count("--seconds")) o.seconds = call.seconds;
    if (verb.count("--iterations")) o.iterations = call.iterations;
    o.seed = call.seed;
    o.now = QString::fromStdString(call.now);
    o.json = QString::fromStdString(call.json);
    o.ics = QString::fromStdString(call.ics);
    o.csv = QString::fromStdString(call.csv);
    o.progress = call.progress;
    return o;
}

void defineVerbs(CLI::App& app, Call& call) {
    app.add_subcommand("new", "write a small fleet folder of one's own to start from")
        ->add_option("DIR", call.folder, "a folder that does not exist yet, or is empty")->required();
    fleetVerb(app, call, "check", "read everything, report every problem, exit 1 if any");
    CLI::App* changeover =
        fleetVerb(app, call, "changeover", "facts, verdicts, steps, times and pick list of one changeover");
    changeover->add_option("--printer", call.printer, "the printer's id")->required();
    changeover->add_option("--to", call.to, "job id or setup label")->required();
    changeover->add_option("--variant", call.variant, "the job's variant; left out: the first that fits");
    changeover->add_option("--json", call.json, "also write JSON to this file (- for standard output instead of text)");
    CLI::App* worth = fleetVerb(app, call, "worth",
                                "each variant of a job on each printer: print hours, changeover there and back, break-even");
    worth->add_option("--job", call.job, "the job's id")->required();
    definePlan(app, call);
    CLI::App* record = fleetVerb(app, call, "record", "write the record of a session");
    record->add_option("--session", call.session, "number of the session; left out: the last one");
    record->add_option("--pdf", call.pdf, "the file to write")->required();
    record->add_flag("--letter", call.letter, "Letter instead of A4");
    fleetVerb(app, call, "verify", "check the ledger's chain, or a printed record's hash against it")
        ->add_option("--record", call.hash, "hash as printed on the record");
    fleetVerb(app, call, "export", "write lists and all records with their SHA-256 sums")
        ->add_option("--out", call.out, "a folder that does not exist yet")->required();
    fleetVerb(app, call, "rehearse", "carry out one changeover on a copy; leave pictures and the record")
        ->add_option("--out", call.out, "the folder for the pictures")->required();
}

int dispatch(const CLI::App& called, const Call& call) {
    const std::string& verb = called.get_name();
    if (verb == "plan") return plan(planOptions(called, call));
    if (verb == "worth") return worth(call.fleet(), QString::fromStdString(call.job));
    if (verb == "new") return newFleet(QString::fromStdString(call.folder));
    if (verb == "check") return check(call.fleet());
    if (verb == "verify") return verify(call.fleet(), QString::fromStdString(call.hash));
    if (verb == "export") return exportFleet(call.fleet(), QString::fromStdString(call.out));
    if (verb == "rehearse") return rehearse(call.fleet(), QString::fromStdString(call.out));
    if (verb == "changeover")
        return changeover({call.fleet(), QString::fromStdString(call.printer), QString::fromStdString(call.to),
                           QString::fromStdString(call.variant), QString::fromStdString(call.json)});
    if (verb == "record")
        return record({call.fleet(), call.session > 0 ? std::optional(call.session) : std::nullopt,
                       QString::fromStdString(call.pdf), call.letter});
    return openWindow(call.fleet());
}

} // namespace

int run(int argc, char** argv) {
    CLI::App app{"Interlude: changeovers on heated-chamber material-extrusion printers", "interlude"};
    app.set_version_flag("--version", INTERLUDE_VERSION);
    Call call;
    defineVerbs(app, call);
    // `interlude FLEET` opens the window: a first word that is no verb is a folder.
    CLI::App* window = fleetVerb(app, call, "open", "open the workbench (the word may be left out)");
    static_cast<void>(window);
    app.require_subcommand(1);

    std::vector<std::string> words(argv + 1, argv + argc);
    if (!words.empty() && words.front().rfind('-', 0) != 0) {
        bool verb = false;
        for (const CLI::App* known : app.get_subcommands({})) verb = verb || known->get_name() == words.front();
        if (!verb) words.insert(words.begin(), "open");
    }
    try {
        std::vector<std::string> reversed(words.rbegin(), words.rend());
        app.parse(reversed);
    } catch (const CLI::ParseError& e) {
        return app.exit(e) == 0 ? 0 : 2;
    }
    prepareDisplay();
    // One application object for all verbs: printing needs fonts, and it costs a text verb some milliseconds only.
    QApplication qt(argc, argv);
    QApplication::setApplicationName(QStringLiteral("interlude"));
    QApplication::setApplicationVersion(QStringLiteral(INTERLUDE_VERSION));
    try {
        return dispatch(*app.get_subcommands().front(), call);
    } catch (const std::exception& e) {
        std::fprintf(stderr, "interlude: this should not have happened: %s\n", e.what());
        return 3;
    }
}

} // namespace interlude::app
