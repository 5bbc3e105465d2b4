#pragma once
// The materials of the residue table, as data. Softening temperatures: domain reference, section 6 (glass transition of
// amorphous grades and of quenched polyaryletherketones; heat deflection temperature of the polyamides), chamber: the
// nominal values in brackets there, which are common practice, no source.

#include "model/changeover/clean_out.h"

namespace interlude::checks {

struct ResidueMaterial {
    QString name;
    double softeningC;
    double chamberC;
};

inline const QList<ResidueMaterial>& residueMaterials() {
    static const QList<ResidueMaterial> all = {
        {QStringLiteral("ASA"), 100, 90},   {QStringLiteral("ABS"), 105, 90},  {QStringLiteral("PC-ABS"), 105, 105},
        {QStringLiteral("PC"), 150, 125},   {QStringLiteral("PA12"), 120, 90}, {QStringLiteral("PA12-CF"), 120, 100},
        {QStringLiteral("PPSU"), 220, 205}, {QStringLiteral("PEI"), 217, 190}, {QStringLiteral("PEKK"), 160, 145},
        {QStringLiteral("PEEK"), 143, 160},
    };
    return all;
}

/// Supports follow their part material's chamber.
inline const ResidueMaterial acrylicSupport{QStringLiteral("acrylic support"), 105, 0};
inline const ResidueMaterial polystyreneSupport{QStringLiteral("polystyrene support"), 100, 0};
inline const ResidueMaterial polysulfoneSupport{QStringLiteral("polysulfone support"), 185, 0};

inline ResidueMaterial residueMaterial(const QString& name) {
    for (const ResidueMaterial& m : residueMaterials())
        if (m.name == name)
            return m;
    qFatal("no such material in the table: %s", qPrintable(name));
}

/// One deposit of this material that has seen at most that chamber temperature.
inline ResidueFigures deposit(const ResidueMaterial& m, double seenC) {
    return {m.name, Temperature::fromCelsius(m.softeningC), Temperature::fromCelsius(seenC)};
}

} // namespace interlude::checks
