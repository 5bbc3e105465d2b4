#pragma once
// fleet.yaml: the shop, its people, printers and rules. Example with every key:
//
//   format: 1
//   id: northern-yard
//   name: Northern Yard (example)
//   time-zone: Europe/Vienna            # IANA
//   currency: EUR
//   example-clock: 2026-03-02T06:30     # example fleets only
//   ledger: sqlite:PATH                 # left out = the user's data folder
//   room-c: 23                          # assumed room temperature for predictions
//   gloved-work-max-c: 120              # the shop's own limit for gloved work
//   clean-out-rule: going-up            # or strict
//   clean-out-margin-k: 10
//   clean-out-consumables: 6            # money per clean-out
//   long-idle-days: 14                  # a printer unused this long gives the fact `long-idle`
//   residual-same-polymer: 0.05         # outlet fraction after a purge within one polymer …
//   residual-new-polymer: 0.01          # … and to another polymer
//   crew: unlimited                     # or: shifts: [{name: early, days: [mon, tue], from: "06:00", to: "14:00", crew: 2}]
//   closed: [2026-12-25]
//   people: [{initials: ML, name: Mara Lind, roles: [technician]}]   # technician, planner, quality, safety
//   places: [{id: cabinet-1, name: Drying cabinet 1, dry: true}]   # dry: spools in it are not exposed; left out = false
//   tools: [{id: nozzle-tweezers, name: Nozzle tweezers, place: bench, quantity: 2}]
//   consumables: [{id: wipe, name: Lint-free wipe, place: bench}]
//   instruments: [{id: ct-1, name: Contact thermometer 1, place: bench, calibrated: 2026-01-10, due: 2027-01-10}]
//   printer-types:
//     - id: mid
//       name: mid-temperature chamber
//       chamber-max-c: 145
//       nozzle-max-c: 345
//       envelope-mm: [400, 350, 400]
//       materials: [abs-grey, …]        # left out = any that its limits allow
//       support-position: true          # a second extrusion head for support
//       part-removal-minutes: 6
//       start-minutes: 5
//       nozzle-removal-minutes: 6
//       hourly-rate: 18
//       platform-cover: sheet           # kind of cover that it takes; left out = none is tracked
//       chamber-heat: {tau-s: 1500, ceiling-c: 210, settle-minutes: 8}          # at full power, room 23
//       chamber-cool: {tau-s: 2700, tau-se-s: 120}                              # one node to the room
//       head-heat: {tau-s: 300, ceiling-c: 480, settle-minutes: 2}
//       head-cool: {c1-j-per-k: 60, c2-j-per-k: 12000, g12-w-per-k: 0.25, g12-se: 0.01, g20-w-per-k: 6.0, g20-se: 0.3}
//       platform-heat: {tau-s: 900, ceiling-c: 240, settle-minutes: 5}
//       purge-flow-mm3-per-s: 8
//   printers: [{id: bay-1, name: Bay 1, type: mid, place: hall, measured-changeovers: bay-1.csv, unattended: false}]
//
// Any thermal key may be left out: then there is no prediction of it, only "measure".

#include "model/catalogue/procedure.h"
#include "model/clock/instant.h"

#include <QDate>
#include <QTime>

namespace interlude {

using PrinterId = QString;
using PrinterTypeId = QString;

/// Full-power heating, domain reference 1.2: T∞ = ceiling at the room temperature assumed.
struct HeatingConstants {
    Seconds tau{0};
    Temperature ceiling;
    Minutes settle{0}; ///< logged extra until the controller has settled and the walls have soaked
    bool operator==(const HeatingConstants&) const = default;
};
/// One-node cooling of the chamber towards the room; `tauSe` is its standard error (±).
struct ChamberCooling {
    Seconds tau{0};
    Seconds tauSe{0};
    bool operator==(const ChamberCooling&) const = default;
};
/// Two-node cooling of a head block (1) inside the chamber (2), domain reference 1.4; J/K and W/K.
struct HeadCooling {
    double c1 = 0, c2 = 0, g12 = 0, g12Se = 0, g20 = 0, g20Se = 0;
    bool operator==(const HeadCooling&) const = default;
};

struct Envelope {
    Length x, y, z;
    bool operator==(const Envelope&) const = default;
};

struct PrinterType {
    PrinterTypeId id;
    QString name;
    std::optional<Temperature> chamberMax;
    std::optional<Temperature> nozzleMax;
    std::optional<Envelope> envelope;
    QStringList materials; ///< empty = any within the limits
    bool supportPosition = true;
    Minutes partRemoval{0};
    Minutes start{5};
    Minutes nozzleRemoval{0};
    Money hourlyRate;
    QString platformCover;
    std::optional<HeatingConstants> chamberHeat;
    std::optional<ChamberCooling> chamberCool;
    std::optional<HeatingConstants> headHeat;
    std::optional<HeadCooling> headCool;
    std::optional<HeatingConstants> platformHeat;
    double purgeFlowMm3PerS = 8.0;
};

/// A stop-watch table of changeovers between setup labels, from the CSV of `measured-changeovers`.
struct MeasuredChangeover {
    QString from, to;
    Minutes total{0};
    Minutes handsOn{0}; ///< the first part, by one person; = total without the column
};

struct Printer {
    PrinterId id;
    QString name;
    PrinterTypeId type;
    QString place;
    bool unattended = false;
    bool hasMeasured = false;
    QList<MeasuredChangeover> measured;
};

struct Person {
    QString initials;
    QString name;
    QStringList roles;
};

struct Shift {
    QString name;
    QList<int> days; ///< Qt::DayOfWeek, 1 = Monday
    QTime from, to;  ///< `to` <= `from`: ends on the next day
    int crew = 1;
};

struct Place {
    QString id, name;
    bool dry = false; ///< what lies here is kept dry: exposure of a spool stands still
};
struct Tool {
    QString id, name, place;
    int quantity = 1;
};
struct Consumable {
    QString id, name, place;
};
struct Instrument {
    QString id, name, place;
    QDate calibrated, due; ///< invalid = not stated
};

enum class CleanOutRule { GoingUp, Strict };

struct Fleet {
    QString id, name;
    QTimeZone zone{QByteArrayLiteral("UTC")};
    QString currency = QStringLiteral("EUR");
    std::optional<QDateTime> exampleClock; ///< in `zone`
    QString ledger;
    int backupKeep = 7;   ///< daily backups kept; 0 = the program makes none by itself
    QString backupFolder; ///< where they go; empty = beside the ledger
    Temperature room = Temperature::fromMilliCelsius(23000);
    std::optional<Temperature> glovedWorkMax;
    CleanOutRule cleanOutRule = CleanOutRule::GoingUp;
    double cleanOutMarginK = 10.0;
    Money cleanOutConsumables;
    int longIdleDays = 14;
    double residualSamePolymer = 0.05;
    double residualNewPolymer = 0.01;
    bool crewUnlimited = true;
    QList<Shift> shifts;
    QList<QDate> closed;
    QList<Person> people;
    QList<Place> places;
    QList<Tool> tools;
    QList<Consumable> consumables;
    QList<Instrument> instruments;
    QList<PrinterType> printerTypes;
    QList<Printer> printers;
};

} // namespace interlude
