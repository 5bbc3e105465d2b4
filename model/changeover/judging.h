#pragma once
// The rules of a transition, one function an idea, each adding to the same transition in the order given below (private
// to model/changeover).

#include "model/changeover/transition.h"

namespace interlude {

/// What the rules look at, and the transition that they fill. All borrowed for the length of one judgement.
struct Judging {
    const Catalogue& catalogue;
    const Stock& stock;
    Instant now;
    Transition& transition;
    const Printer* printer = nullptr;
    const PrinterType* printerType = nullptr;
    const Material* part = nullptr;    ///< wanted
    const Material* support = nullptr; ///< wanted; null = position not used

    const TransitionRequest& request() const { return transition.request; }
    const PrinterNow& before() const { return transition.request.now; }
    const Material* wanted(Role role) const { return role == Role::Part ? part : support; }
    Finding& say(Severity severity, const QString& rule, const QString& reason, const QString& remedy = {},
                 const QString& place = {}) const;
    void addFact(const QString& word) const;
    NozzleChange* nozzle(Role role) const;
    PurgePlan* purge(Role role) const;
};

QString positionName(Role role);      ///< "part position"
QString gradeName(const Material& m); ///< "PC Marlow 20 (pc-ivory)"
QString printerName(const Judging& j); ///< what people call it: "Bay 1"

void judgeJob(const Judging& j);      ///< its allowed printers and envelope
void judgeLimits(const Judging& j);   ///< printer and chamber set-points; hotter, cooler
void chooseNozzles(const Judging& j); ///< part-nozzle, support-nozzle, nozzle-first-use
void planPurges(const Judging& j);
void chooseSpools(const Judging& j); ///< part-material, support-material
void judgeResidue(const Judging& j);
void nameOtherFacts(const Judging& j); ///< platform-cover, chamber-family, long-idle

/// Makes the plan one of priming only.
void prime(const Judging& j, PurgePlan& plan, const NozzleType& type);
/// Whether a temperature exists at which both flow and neither decomposes.
bool windowsOverlap(const Material& a, const Material& b);
/// Whether the material left in that position's melt zone could be purged by the wanted one with this nozzle type.
bool purgeable(const Judging& j, Role role);

} // namespace interlude
