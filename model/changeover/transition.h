#pragma once
// From a printer's present state to a wanted setup: facts and verdicts (design section 5). Pure function of plain values.

#include "model/catalogue/catalogue.h"
#include "model/changeover/clean_out.h"
#include "model/changeover/printer_now.h"
#include "model/stock/stock.h"

#include <QSet>

namespace interlude {

/// The closed list of facts, as the words that `when` uses.
namespace fact {
inline const QString partMaterial = QStringLiteral("part-material");
inline const QString supportMaterial = QStringLiteral("support-material");
inline const QString partNozzle = QStringLiteral("part-nozzle");
inline const QString supportNozzle = QStringLiteral("support-nozzle");
inline const QString platformCover = QStringLiteral("platform-cover");
inline const QString chamberFamily = QStringLiteral("chamber-family");
inline const QString hotter = QStringLiteral("hotter");
inline const QString cooler = QStringLiteral("cooler");
inline const QString nozzleFirstUse = QStringLiteral("nozzle-first-use");
inline const QString longIdle = QStringLiteral("long-idle");
} // namespace fact

struct TransitionRequest {
    PrinterNow now;
    Setup wanted;
    JobId job;            ///< may be empty: a setup without a job
    QString variant;
    Volume partVolume, supportVolume; ///< of the job, for nozzle life and stock
    Minutes print{0};
    std::optional<Envelope> envelope;
    bool sameLot = false;
    bool takeAdvisedCleanOut = true;
    NozzleSerial choosePartNozzle, chooseSupportNozzle; ///< a person's choice; empty = chosen by rule
    SpoolId choosePartSpool, chooseSupportSpool;
    QSet<NozzleSerial> notFree;  ///< reserved elsewhere
};

/// What happens to one position's nozzle.
struct NozzleChange {
    Role role = Role::Part;
    bool exchange = false;
    NozzleSerial out; ///< empty: none mounted
    NozzleSerial in;  ///< empty: none found (then a refusal says why) or position not used
};

/// How old material leaves one melt zone.
struct PurgePlan {
    Role role = Role::Part;
    bool needed = false;    ///< false: nothing to do at this position
    bool primeOnly = false;
    MaterialId from, to;
    double residual = 0;    ///< outlet fraction W allowed
    double theta = 0;       ///< purged / melt-zone volume, before the dead-space factor
    Volume volume;          ///< to purge or prime, dead space included
    Seconds time{0};
};

struct SpoolChange {
    Role role = Role::Part;
    bool unload = false, load = false;
    SpoolId out, in; ///< `in` empty: none found (a finding says why)
};

struct Transition {
    TransitionRequest request;
    QStringList facts;
    Findings verdicts; ///< in order of severity, the worst first
    CleanOutVerdict chamber, wiper;
    bool cleanOut = false;   ///< clean-out steps are part of the changeover (mandatory, or advised and taken)
    bool clearWiper = false; ///< wiper and bin alone or with the clean-out
    QList<NozzleChange> nozzles;
    QList<PurgePlan> purges;
    QList<SpoolChange> spools;
    Temperature chamberBefore, chamberAfter; ///< set-points
    std::optional<Temperature> partNozzleAfter, supportNozzleAfter;

    /// No refusal stands (overridable ones must have been lifted by the caller).
    bool possible() const { return refusalsIn(verdicts).isEmpty(); }
    bool has(const QString& factWord) const { return facts.contains(factWord); }
};

Transition judgeTransition(const Catalogue& catalogue, const Stock& stock, const TransitionRequest& request, Instant now);

/// The request for a job's variant on a printer.
TransitionRequest requestFor(const PrinterNow& printer, const Job& job, const Variant& variant);

} // namespace interlude
