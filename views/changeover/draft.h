#pragma once
// What a person has chosen for a changeover that has not begun: printer, job, variant, nozzles, spools, what is lifted.
// Plain; the model judges it.

#include "model/shop/shop.h"

namespace interlude {

struct Draft {
    PrinterId printer;
    JobId job;
    int variant = 0;
    bool takeAdvisedCleanOut = true;
    NozzleSerial partNozzle, supportNozzle; ///< chosen by hand; empty = as planned, else by rule
    SpoolId partSpool, supportSpool;
    QList<act::Override> lifted;

    QStringList liftedRules() const;
    /// Another printer, job or variant: choices made for the former one no longer stand.
    void forget();
};

struct DraftResult {
    Transition transition;
    Outcome<Changeover> changeover = refusal(QStringLiteral("draft"), QString());
    /// Refusals that stand: not lifted, or not to be lifted at all.
    Findings standing;
    /// When the printer would be ready to print, if the work began now (or when the running print ends).
    std::optional<Instant> ready;
};

/// Empty when printer, job or variant is not there.
std::optional<DraftResult> assemble(const Shop& shop, const Draft& draft, Instant now);

/// Whether both say the same to a person, apart from when the printer would be ready.
bool saySame(const DraftResult& a, const DraftResult& b);

/// Nozzles that other open sessions are about to mount.
QSet<NozzleSerial> nozzlesSpokenFor(const Shop& shop, const PrinterId& except);

/// What may be chosen for a position: ids with a word about each; the one that the rule takes first.
struct Candidate {
    QString id, text;
    bool fits = true; ///< of the wanted type (or material) and free
};
QList<Candidate> nozzleCandidates(const Shop& shop, const Transition& t, Role role);
QList<Candidate> spoolCandidates(const Shop& shop, const Transition& t, Role role, Instant now);

} // namespace interlude
