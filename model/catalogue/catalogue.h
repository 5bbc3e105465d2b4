#pragma once
// What the fleet folder says, read once and never changed. Opening entries (what the shop had at the start) are kept
// apart: the ledger imports each once and owns it from then on.

#include "model/catalogue/fleet.h"
#include "model/catalogue/problem.h"
#include "model/stock/job.h"
#include "model/stock/nozzle.h"
#include "model/stock/spool.h"

#include <memory>

namespace interlude {

struct OpeningResidue {
    MaterialId material; ///< empty = unknown
    std::optional<Temperature> chamberMax;
    std::optional<Temperature> nozzleMax;
};

/// One entry of setups.yaml.
struct OpeningSetup {
    PrinterId printer;
    QString label;
    MaterialId part, support;
    NozzleSerial partNozzle, supportNozzle;
    SpoolId partSpool, supportSpool;
    QString platformCover;
    QList<OpeningResidue> residue;
    std::optional<Instant> lastPrint;
};

/// `print` of an entry of setups.yaml: a print that runs when the folder is first opened.
struct OpeningPrint {
    PrinterId printer;
    JobId job;
    QString variant;
    Instant started;
    Minutes expected{0};
};

struct Openings {
    QList<Spool> spools;
    QList<Nozzle> nozzles;
    QList<OpeningSetup> setups;
    QList<OpeningPrint> prints;
    QList<Job> jobs;
};

class Catalogue {
public:
    Fleet fleet;
    QList<Material> materials;
    QList<NozzleType> nozzleTypes;
    ProcedureLibrary procedures;
    Openings openings;
    /// The files as read, name → text; kept in the ledger so that a session keeps the catalogue that it began with.
    QMap<QString, QString> files;
    /// SHA-256, hex, over names and texts of `files` without the opening entries' files.
    QString hash;

    /// Each is null when there is no such id.
    const Material* material(const MaterialId& id) const;
    const NozzleType* nozzleType(const NozzleTypeId& id) const;
    const Printer* printer(const PrinterId& id) const;
    const PrinterType* printerType(const PrinterTypeId& id) const;
    const PrinterType* typeOf(const PrinterId& printer) const;
    const Person* person(const QString& initials) const;
    const Tool* tool(const QString& id) const;
    const Consumable* consumable(const QString& id) const;
    const Instrument* instrument(const QString& id) const;
    const Place* place(const QString& id) const;
    /// What people call it; the id itself where there is no such id, or no name.
    QString printerName(const PrinterId& id) const;
    QString placeName(const QString& id) const;
    /// The step of this id in the library, or null.
    const StepTemplate* step(const StepId& id) const;
};

using CataloguePtr = std::shared_ptr<const Catalogue>;

} // namespace interlude
