#pragma once
// A shop of one printer in a few words, for the tests of model/changeover. Figures are round so that expectations can be
// worked out by hand beside them.

#include "model/changeover/changeover.h"

namespace interlude::tests {

inline Temperature celsius(double c) { return Temperature::fromCelsius(c); }
inline Volume cm3(double v) { return Volume::fromCm3(v); }
inline Mass grams(double g) { return Mass::fromGrams(g); }

/// A step in a line: id, then in any order `8m` minutes, `2p` people, `wait` (nobody), `ext`, `after=a,b`, `when=a|b` or
/// `when=a&b` (left out: always), `effect=…`, `heat=chamber`, `cool=chamber:60`, `purge=part`, `settle=4`, `tools=a,b`,
/// `use=wipe:2,sheet:1`, `scan=nozzle-in-part,place`, `read=gauge` (an instrument), `wear=gloves`, `types=low`,
/// `power=off`.
StepTemplate step(const QString& line);

/// Printer `bay` of type `mid` (chamber to 150 °C, nozzle to 400 °C, no constants, no platform cover, start-minutes 0),
/// wearing ABS `abs` with support `acr` in nozzles P1 (type p04) and S1 (type s04), idle, nothing left in the chamber.
/// Materials: abs, asa (styrenics, 90), pc (polycarbonates, 125), pa-cf (abrasive polyamide, 100), pei (imides, 190),
/// supports acr and psb. Densities 1 g/cm³, flow index 1. Melt zone 400 mm³, dead space 2, prime 1 cm³, flow 10 mm³/s.
struct SmallShop {
    SmallShop();

    Catalogue catalogue;
    Stock stock;
    TransitionRequest request; ///< wanted: part pc without support in a p04, until changed
    Instant now = instantFromMs(1'772'000'000'000);

    Material& material(const QString& id);
    NozzleType& nozzleType(const QString& id);
    PrinterType& type() { return catalogue.fleet.printerTypes[0]; }
    Printer& printer() { return catalogue.fleet.printers[0]; }
    PrinterNow& bay() { return request.now; }
    /// On the shelf, with so many plain cm³ run; a negative figure = no history.
    Nozzle& nozzle(const QString& serial, const QString& type, double runCm3 = 0, const QString& family = {});
    Spool& spool(const QString& id, const QString& material, double left);
    void want(const QString& part, const QString& partNozzle, const QString& support = {}, const QString& supportNozzle = {});
    void residue(const QString& material, double chamberC, double nozzleC);
    void steps(const QStringList& lines);

    Transition judge() const { return judgeTransition(catalogue, stock, request, now); }
    Outcome<Changeover> plan(const QStringList& lifted = {}) const {
        return planChangeover(catalogue, stock, judge(), now, lifted);
    }
    /// The plan; a failed test with the reason when there is none.
    Changeover planned(const QStringList& lifted = {}) const;
};

/// The shop on its way to what it wants, part pc in a p04, with one on the shelf and these steps.
SmallShop shopWith(const QStringList& lines);

/// The first verdict of that rule, or null.
const Finding* verdict(const Transition& t, const QString& rule);
const Finding* verdict(Transition&&, const QString&) = delete;
/// Rules of the refusals, in order, each once.
QStringList refused(const Transition& t);
/// "hands-on 0-8 x1 [unload]", one a segment.
QStringList inWords(const QList<Segment>& segments);

} // namespace interlude::tests
