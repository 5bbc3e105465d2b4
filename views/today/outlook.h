#pragma once
// What the next hours hold, as far as it is known: the running print, the steps left of an open session and its print, downtime. What
// the published plan adds is in plan_ahead.h. Plain values, no widget.

#include "model/session/guide.h"

namespace interlude {

struct Stretch {
    enum class Kind { Print, HandsOn, Waiting, Down };
    Kind kind = Kind::Print;
    Instant from, to;
    QString text;     ///< "Print of 7408", "Exchange the part nozzle"
    int people = 0;   ///< of a hands-on stretch
    StepId firstStep; ///< of a changeover
    MaterialId material; ///< of a print: its tint
    bool open = false;   ///< the end is not known
};

/// In order of time. Steps are laid out as one team would do them from `now` on, waits ending as their countdowns say.
QList<Stretch> outlook(const Shop& shop, const PrinterNow& printer, Instant now);

/// People needed at a printer, for how long, and what to fetch before.
struct Need {
    PrinterId printer;
    Instant at;
    bool waitsNow = false; ///< people are needed already
    Minutes length{0};
    int people = 1;
    QString what, fetch;
};
/// For all printers, in order of time, those that begin before `until`.
QList<Need> needs(const Shop& shop, Instant now, Instant until);

/// The shift that runs now, or the next one to begin; overlapping shifts add, who is away does not count.
struct CrewNow {
    bool unlimited = false;
    bool present = false;
    int people = 0;
    std::optional<Instant> until; ///< when fewer or more are there, or somebody again
};
CrewNow crewAt(const Fleet& fleet, Instant now, const QMap<QString, PlannedAbsence>& absences = {});

/// What a person should look at before it becomes a surprise.
struct Worry {
    QString text;
    bool wrong = false; ///< wrong now, not only soon
};
/// Loaded spools that run out in the job at hand or are overdue for drying, nozzles that are nearly worn.
QList<Worry> worries(const Shop& shop, Instant now);

} // namespace interlude
