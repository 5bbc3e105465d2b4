#pragma once
// procedures.yaml: the shop's own step library. Example of one entry, with every key:
//
//   version: "3"                          # of the library, printed on the record
//   steps:
//     - id: exchange-part-nozzle
//       group: Exchange                   # heading in the list of steps
//       title: Exchange the part nozzle
//       detail: Release the nozzle as the printer's manual states … confirm that it is immovable.
//       when: [part-nozzle]               # any of; or {all: [part-nozzle, hotter]}; or always
//                                         # facts, `clean-out=mandatory`, `wiper-and-bin=mandatory`, `purge=part`,
//                                         # `purge=support`, `support=wanted`, `part-lying`
//       printer-types: [low]              # left out = all
//       after: [bring-head-out]           # a step not selected passes its order through
//       people: 1                         # 0 = waiting (then a duration that needs nobody)
//       tools: [nozzle-tweezers]          # ids of fleet.yaml `tools`, each needed once
//       consumables: {wipe: 2}            # ids of fleet.yaml `consumables`
//       minutes: 5                        # or computed, instead of minutes, one of
//                                         #   heat: chamber | head-part | head-support | platform
//                                         #   cool: chamber | head-part | head-support  (to the step's to-c or only-below-c)
//                                         #   purge: part | support
//                                         #   settle-minutes: 8  may stand beside heat
//       to-c: 60                          # where a `cool` ends, when no only-below-c says it
//       external: false                   # true: can be done while the printer still prints
//       mandatory: true                   # false: may be skipped without a reason
//       cautions: [{word: warning, subject: hot-surface, text: Melt zone above 100 °C.}]
//       protection: [heat-gloves, eye-protection]
//       power: on                         # on | off | isolated; left out = no matter
//       only-below-c: 43                  # closes only on a measured value at or below this …
//       measured-at: chamber              # … of this sensor: chamber | head | platform
//       confirm:
//         - scan: nozzle-out-part         # what is expected, see ScanTarget
//         - answer: Is it immovable?      # question; the step goes on only with `must-be`
//           must-be: yes                  # yes | no; left out = either is recorded
//         - reading: X offset             # name
//           unit: mm
//           min: -0.1 / max: 0.1          # limits; outside = the step does not close without override
//           instrument: vernier           # id of fleet.yaml `instruments`; left out = typed without one
//           times: 1                      # how many readings
//       effect: mount-nozzle-part         # at most one; see Effect

#include "model/catalogue/material.h"

#include <QMap>

namespace interlude {

using StepId = QString;

enum class Effect {
    None, RemovePart, UnloadPart, UnloadSupport, RemoveNozzlePart, RemoveNozzleSupport, MountNozzlePart,
    MountNozzleSupport, LoadPart, LoadSupport, PurgePart, PurgeSupport, FitCover, CleanOut,
    ClearWiper, ///< wiper and waste bin cleared, chamber not: its residue must be able to end alone
    Align, StartPrint
};

/// What must be scanned. Each resolves, in a session, to the id that is expected.
enum class ScanTarget {
    Printer, NozzleOutPart, NozzleOutSupport, NozzleInPart, NozzleInSupport, SpoolOutPart, SpoolOutSupport,
    SpoolInPart, SpoolInSupport, PlatformCover, Place
};

/// `Head` is the part head, and the only one of a printer without a support position.
enum class Sensor { Chamber, Head, SupportHead, Platform };
enum class DurationKind { Fixed, Heat, Cool, Purge };
enum class Subject { Chamber, HeadPart, HeadSupport, Platform, Part, Support };
enum class Power { NoMatter, On, Off, Isolated };
enum class SignalWord { Notice, Caution, Warning, Danger };

struct Caution {
    SignalWord word = SignalWord::Caution;
    QString subject; ///< drawing: hot-surface, electricity, crushing, sharp, corrosive, general, fumes, lifting
    QString text;
    bool operator==(const Caution&) const = default;
};

struct ScanWanted {
    ScanTarget target = ScanTarget::Printer;
    bool operator==(const ScanWanted&) const = default;
};
struct AnswerWanted {
    QString question;
    std::optional<bool> mustBe;
    bool operator==(const AnswerWanted&) const = default;
};
struct ReadingWanted {
    QString name;
    QString unit;
    std::optional<double> min;
    std::optional<double> max;
    QString instrument;
    int times = 1;
    bool operator==(const ReadingWanted&) const = default;
};

struct Confirmation {
    QList<ScanWanted> scans;
    QList<AnswerWanted> answers;
    QList<ReadingWanted> readings;
    bool operator==(const Confirmation&) const = default;
};

/// When a step is selected: `terms` empty and !all = always; otherwise any of, or all of, the terms.
struct Condition {
    bool all = false;
    QStringList terms;
    bool operator==(const Condition&) const = default;
};

struct StepTemplate {
    StepId id;
    QString group;
    QString title;
    QString detail;
    Condition when;
    QStringList printerTypes;
    QStringList after;
    int people = 1;
    QStringList tools;
    QMap<QString, int> consumables;
    DurationKind duration = DurationKind::Fixed;
    Subject subject = Subject::Chamber; ///< of a computed duration
    Minutes minutes{0};                 ///< of a fixed one
    Minutes settle{0};                  ///< added to a computed heating
    std::optional<Temperature> to;      ///< where a cooling ends, else `onlyBelow`
    bool external = false;
    bool mandatory = true;
    QList<Caution> cautions;
    QStringList protection;
    Power power = Power::NoMatter;
    std::optional<Temperature> onlyBelow;
    Sensor measuredAt = Sensor::Chamber;
    Confirmation confirm;
    Effect effect = Effect::None;

    bool handsOn() const { return people > 0; }
    bool operator==(const StepTemplate&) const = default;
};

struct ProcedureLibrary {
    QString version;
    QList<StepTemplate> steps; ///< in file order, which orders hands-on work
};

/// The words used in YAML, in events and in print; both ways. `effectFromWord` of an unknown word is empty.
QString word(Effect e);
std::optional<Effect> effectFromWord(const QString& w);
QString word(ScanTarget t);
std::optional<ScanTarget> scanTargetFromWord(const QString& w);
/// What measures this subject; the chamber's for the feedstock subjects of a purge.
Sensor sensorOf(Subject subject);
QString word(Sensor s);
std::optional<Sensor> sensorFromWord(const QString& w);
QString word(SignalWord s);
std::optional<SignalWord> signalWordFromWord(const QString& w);
QString word(Power p);
QString word(Subject s);
std::optional<Subject> subjectFromWord(const QString& w);
/// Every word that `when` knows.
QStringList conditionWords();

} // namespace interlude
