#pragma once
// From a printer's present state to a wanted setup: facts and verdicts (design section 5). Pure function of plain
// values. A running print is looked at as it will have ended: its part lies there and the chamber has seen its
// set-points.
//
// Rules (`Finding::rule`), worst severity in brackets; `*` = a refusal that a reason and a second person may lift:
//   setup, setup-label, printer, material, printer-chamber, printer-nozzle-temperature, printer-materials,
//   printer-envelope, printer-support, job-printers, chamber-set-point, nozzle-role, nozzle-orifice, nozzle-abrasive,
//   nozzle-temperature, nozzle-printer, nozzle-type, nozzle-none, nozzle-choice, melt-family, nozzle-life*,
//   purge-windows, spool-none, spool-choice, spool-stock*, spool-lot* [refusal]
//   clean-out, wiper-and-bin [mandatory]
//   nozzle-history, nozzle-worn, spool-drying, spool-weight, spool-change, spool-expired, support-fit,
//   support-left-loaded, printer-down [warning]
//   own-chamber [notice]

#include "model/catalogue/catalogue.h"
#include "model/changeover/clean_out.h"
#include "model/changeover/printer_now.h"
#include "model/stock/stock.h"

#include <QSet>

namespace interlude {

/// The closed list of facts, as the words that `when` uses.
///   part-material, support-material   the feedstock at that position changes: other material, or other spool
///   part-nozzle, support-nozzle       the nozzle at that position is exchanged (or mounted where there was none)
///   platform-cover                    the printer takes one and the one on it is not fresh
///   chamber-family                    the part material's chamber family differs from that of the last print
///   hotter, cooler                    the chamber set-point against the one before
///   nozzle-first-use                  a nozzle that is mounted was never used here
///   long-idle                         nothing was printed for the shop's `long-idle-days`
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
    JobId job; ///< may be empty: a setup without a job
    QString variant;
    Volume partVolume, supportVolume; ///< of the job, for nozzle life and stock
    Minutes print{0};
    std::optional<Envelope> envelope;
    QStringList allowedPrinters; ///< of the job; empty = any
    bool sameLot = false;
    bool takeAdvisedCleanOut = true;
    NozzleSerial choosePartNozzle, chooseSupportNozzle; ///< a person's choice; empty = chosen by rule
    SpoolId choosePartSpool, chooseSupportSpool;
    QSet<NozzleSerial> notFree; ///< reserved elsewhere
};

/// What happens to one position's nozzle; listed for each position that the wanted setup uses. Without an exchange
/// `out` and `in` are both the nozzle that stays.
struct NozzleChange {
    Role role = Role::Part;
    bool exchange = false;
    NozzleSerial out; ///< empty: none mounted
    NozzleSerial in;  ///< empty: none found (then a refusal says why) or position not used
};

/// How old material leaves one melt zone. The volume is theta(W <= residual) × melt zone × dead-space factor with the
/// flow index of the material being pushed out (`from`): what lingers is its layer at the wall, so its profile decides.
/// A nozzle that is one unit with its melt zone, or a melt zone in which nothing is left, is only primed; a nozzle that
/// leaves the melt zone in the printer does not take the old material with it.
struct PurgePlan {
    Role role = Role::Part;
    bool needed = false; ///< false: nothing to do at this position
    bool primeOnly = false;
    MaterialId from, to;
    double residual = 0; ///< outlet fraction W allowed
    double theta = 0;    ///< purged / melt-zone volume, before the dead-space factor
    Volume volume;       ///< to purge or prime, dead space included
    Seconds time{0};
};

/// What happens to one position's feedstock. A nozzle exchange unloads and loads the same spool again (`out` == `in`).
struct SpoolChange {
    Role role = Role::Part;
    bool unload = false, load = false;
    SpoolId out, in; ///< `in` empty: none found (a finding says why); `load` then still says that one must go in
    Mass need;       ///< of the job with purge and prime; zero without a job
};

struct Transition {
    TransitionRequest request;
    QStringList facts;
    Findings verdicts; ///< in order of severity, the worst first
    CleanOutVerdict chamber, wiper;
    bool cleanOut = false;   ///< clean-out steps are part of the changeover (mandatory, or advised and taken)
    bool clearWiper = false; ///< wiper and bin must be cleared, whatever becomes of the clean-out
    QList<NozzleChange> nozzles;
    QList<PurgePlan> purges;
    QList<SpoolChange> spools;
    Temperature chamberBefore, chamberAfter; ///< set-points
    std::optional<Temperature> partNozzleAfter, supportNozzleAfter;

    /// No refusal stands (overridable ones must have been lifted by the caller).
    bool possible() const { return refusalsIn(verdicts).isEmpty(); }
    /// It can be planned: no refusal stands but for stock that is short, which can be received or weighed until then. To
    /// be started it must also be `possible`.
    bool plannable() const;
    bool has(const QString& factWord) const { return facts.contains(factWord); }
};

/// Refusals for short stock, `spool-none`, `spool-stock` and `spool-lot`: they stand against the start of a changeover,
/// not against planning it.
bool isShortStock(const Finding& f);

Transition judgeTransition(const Catalogue& catalogue, const Stock& stock, const TransitionRequest& request,
                           Instant now);

/// The printer as it will stand when its running print has ended; unchanged when none runs.
PrinterNow asPrintEnds(PrinterNow printer);

/// The request for a job's variant on a printer.
TransitionRequest requestFor(const PrinterNow& printer, const Job& job, const Variant& variant);

} // namespace interlude
