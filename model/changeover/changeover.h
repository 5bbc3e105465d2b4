#pragma once
// The work of one transition: steps in order, times, segments, critical path, pick list. A plain value; a session
// freezes it, so it goes to JSON and back without loss.

#include "model/changeover/transition.h"

#include <QJsonObject>

namespace interlude {

/// A step selected for this changeover, with everything resolved.
struct PlannedStep {
    StepTemplate step;         ///< frozen copy
    QStringList after;         ///< ids of selected steps only
    QStringList expectedScans; ///< parallel to step.confirm.scans
    Minutes planned{0};        ///< rounded up; of a computed one the upper end
    bool predictable = true;   ///< false: a computed duration without constants; `planned` is then a stand-in of 0
    std::optional<Temperature> target; ///< of a heating or cooling
    std::optional<Volume> purge;       ///< of a purge
    QString mandatoryBecause;          ///< of a clean-out step: the verdict; may be empty
    bool critical = false;             ///< on the critical path of the internal steps
    Minutes start{0}, end{0}; ///< from the moment the printer stands; external steps from the start of preparation
};

enum class SegmentKind { Preparation, HandsOn, Waiting, PartRemoval };
QString word(SegmentKind k);

struct Segment {
    SegmentKind kind = SegmentKind::HandsOn;
    QStringList steps;
    int people = 0;
    QStringList tools;
    Minutes start{0}, end{0}; ///< within the changeover
    bool mounts = false;      ///< begins with a nozzle mounting
};

/// One line of what to fetch before the printer stops.
struct PickItem {
    QString kind; ///< nozzle, spool, tool, consumable, instrument, protection
    QString id, name, place;
    int count = 1;
    QString note; ///< e.g. "640 g left, 355 g needed", "must dry first"
    bool missing = false;
};

struct Changeover {
    Transition transition;
    QList<PlannedStep> steps; ///< in the order of work: file order among those that may go
    QList<Segment> segments;
    QStringList criticalPath;
    QList<PickItem> pickList;
    Minutes preparation{0}; ///< external steps, one person
    Minutes partRemoval{0};
    Minutes internal{0}; ///< from the printer standing (part out) to the print's start, one team always there
    Minutes handsOn{0};  ///< Σ people × minutes of internal hands-on segments
    Minutes waiting{0};
    QString libraryVersion, catalogueHash;

    const PlannedStep* step(const StepId& id) const;
};

enum class Purpose {
    Start, ///< to be carried out now: every refusal stands
    Plan   ///< a place in a plan: short stock is no obstacle (the plan's reservations tell it)
};
/// Selects, orders and times the steps of a transition. Refused with the reason when the transition is impossible and
/// its refusals are not in `lifted` (rules overridden with a reason and a second person).
Outcome<Changeover> planChangeover(const Catalogue& catalogue, const Stock& stock, const Transition& transition,
                                   Instant now, const QStringList& lifted = {}, Purpose purpose = Purpose::Start);

QJsonObject toJson(const Changeover& c);
Outcome<Changeover> changeoverFromJson(const QJsonObject& o);

} // namespace interlude
