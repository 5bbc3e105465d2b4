#include "app/call.h"

#include <CLI/CLI.hpp>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <utility>

namespace interlude::app {

namespace {

CLI::App* fleetVerb(CLI::App& app, Call& call, const char* name, const char* what) {
    CLI::App* verb = app.add_subcommand(name, what);
    verb->add_option("FLEET", call.folder, "the fleet folder")->required();
    verb->add_option("--ledger", call.ledger, "where the ledger is: sqlite:PATH");
    return verb;
}

/// CLI11's own checks name the greatest double as the bound, with all its 309 digits.
CLI::Validator number(const char* wanted, bool (*fits)(double)) {
    return CLI::Validator(
        [=](std::string& text) {
            char* end = nullptr;
            const double value = std::strtod(text.c_str(), &end);
            const bool read = !text.empty() && *end == '\0' && std::isfinite(value);
            return read && fits(value) ? std::string() : std::string(wanted) + " is wanted, not " + text;
        },
        {});
}
CLI::Validator aboveZero() { return number("a number above 0", [](double v) { return v > 0; }); }
CLI::Validator wholeFromZero() { return number("a whole number, 0 or more,", [](double v) { return v >= 0 && v == std::floor(v); }); }
CLI::Validator wholeFromOne() { return number("a whole number, 1 or more,", [](double v) { return v >= 1 && v == std::floor(v); }); }

/// Only one thing can go to standard output; the text for people does when nothing else is to.
std::string twiceToStandardOutput(const Call& call) {
    std::string both;
    for (const auto& [option, file] : {std::pair("--json", &call.json), std::pair("--ics", &call.ics), std::pair("--csv", &call.csv)})
        if (*file == "-") both += (both.empty() ? "" : " and ") + std::string(option);
    if (both.find(' ') == std::string::npos) return {};
    return both + " would both go to standard output; name a file for all but one of them.\n";
}

void definePlan(CLI::App& app, Call& call) {
    CLI::App* plan = fleetVerb(app, call, "plan", "which job, which printer, which order");
    plan->add_option("--goal", call.goal, "cost (as a rule), changeover, tardiness or makespan")
        ->check(CLI::IsMember({"cost", "changeover", "tardiness", "makespan"}));
    auto* seconds = plan->add_option("--seconds", call.seconds, "how long to search; 10 where nothing is said")
                        ->check(aboveZero());
    plan->add_option("--iterations", call.iterations, "how many moves to try instead: the same plan each time")
        ->check(wholeFromZero())->excludes(seconds);
    plan->add_option("--seed", call.seed, "another seed, another search; 1 where nothing is said");
    plan->add_option("--now", call.now, "plan from this moment on, like 2026-03-02T06:30");
    plan->add_option("--json", call.json, "also write JSON to this file (- for standard output instead of text)");
    plan->add_option("--ics", call.ics, "also write an iCalendar file, one event a changeover (- likewise)");
    plan->add_option("--csv", call.csv, "also write a table, one line a job (- likewise)");
    plan->add_flag("--progress", call.progress, "say on standard error how the search goes");
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
    record->add_option("--session", call.session, "number of the session; left out: the last one")
        ->check(wholeFromOne());
    record->add_option("--pdf", call.pdf, "the file to write")->required();
    record->add_flag("--letter", call.letter, "Letter instead of A4");
    fleetVerb(app, call, "verify", "check the ledger's chain, a printed record's hash against it, an export or a backup")
        ->add_option("--record", call.hash, "hash as printed on the record");
    CLI::App* trace = fleetVerb(app, call, "trace", "which parts came from a lot or nozzle; all that went into a part or job");
    trace->add_option("WHAT", call.what, "lot, nozzle, part or job")
        ->required()->check(CLI::IsMember({"lot", "nozzle", "part", "job"}));
    trace->add_option("ID", call.id, "lot, serial, part number or job id")->required();
    CLI::App* import = fleetVerb(app, call, "import", "bring in the rows of a CSV, all or none");
    import->add_option("WHAT", call.what, "jobs, spools or nozzles")
        ->required()->check(CLI::IsMember({"jobs", "spools", "nozzles"}));
    import->add_option("FILE", call.file, "the CSV; its first line names the columns")->required();
    import->add_option("--who", call.who, "initials of whom it is signed by");
    import->add_flag("--dry-run", call.dryRun, "only say what would come in");
    fleetVerb(app, call, "export", "write lists, all records and the ledger with their SHA-256 sums")
        ->add_option("--out", call.out, "a folder that does not exist yet")->required();
    fleetVerb(app, call, "backup", "copy the ledger and the fleet folder, verified, also while a window is open")
        ->add_option("--out", call.out, "a new folder, or one that takes the backup in")->required();
    CLI::App* restore = fleetVerb(app, call, "restore", "put the ledger of a backup in the place of a lost or damaged one");
    restore->add_option("BACKUP", call.backup, "the backup's folder")->required();
    restore->add_flag("--replace-newer", call.replaceNewer,
                      "also where the ledger has events that the backup lacks, or cannot be read; it is kept aside");
    fleetVerb(app, call, "rehearse", "carry out one changeover on a copy; leave pictures and the record")
        ->add_option("--out", call.out, "the folder for the pictures")->required();
}

/// A slip of the hand in the command is not a folder: a plain word of which nothing is there.
std::string noSuchCommand(const CLI::App& app, const std::string& word) {
    std::error_code ignored;
    if (word.find('/') != std::string::npos || std::filesystem::exists(word, ignored)) return {};
    std::string commands;
    for (const CLI::App* known : app.get_subcommands({})) commands += (commands.empty() ? "" : ", ") + known->get_name();
    return "interlude: `" + word + "` is no command, and there is no folder of that name.\nThe commands are " + commands +
           "; interlude --help explains them.\n";
}

} // namespace

ReadCall readCall(std::vector<std::string> words, bool hasDisplay) {
    CLI::App app{"Interlude: changeovers on heated-chamber material-extrusion printers", "interlude"};
    app.set_version_flag("--version", INTERLUDE_VERSION);
    Call call;
    defineVerbs(app, call);
    // `interlude FLEET` opens the window: a first word that is no verb is a folder.
    CLI::App* window = fleetVerb(app, call, "open", "open the workbench (the word may be left out)");
    app.require_subcommand(1);
    // From a menu nobody names a fleet: with a screen the window asks.
    if (words.empty() && hasDisplay) {
        window->get_option("FLEET")->required(false);
        words.push_back("open");
    }
    if (!words.empty() && words.front().rfind('-', 0) != 0) {
        bool verb = false;
        for (const CLI::App* known : app.get_subcommands({})) verb = verb || known->get_name() == words.front();
        if (!verb) {
            if (const std::string slip = noSuchCommand(app, words.front()); !slip.empty()) return {{}, 2, {}, slip};
            words.insert(words.begin(), "open");
        }
    }
    try {
        app.parse(std::vector<std::string>(words.rbegin(), words.rend()));
    } catch (const CLI::ParseError& e) {
        std::ostringstream out, err;
        const int code = app.exit(e, out, err);
        return {{}, code == 0 ? 0 : 2, out.str(), err.str()};
    }
    call.verb = app.get_subcommands().front()->get_name();
    if (const std::string both = twiceToStandardOutput(call); !both.empty()) return {{}, 2, {}, both};
    return {call, 0, {}, {}};
}

} // namespace interlude::app
