#pragma once
// An order for parts. In jobs.yaml and in CSV:
//
//   jobs:
//     - id: 7412
//       title: hinge x12                 # part name
//       part-number: PN-204 / revision: B / order: O-881 / quantity: 12
//       build-file: hinge_b.build / build-sha256: …
//       release: 2026-03-02T06:00 / due: 2026-03-04T14:00 / late-cost-per-hour: 12 / holding-cost-per-hour: 1
//       same-lot: true
//       printers: [bay-1, bay-2]         # allowed; left out = any
//       envelope-mm: [120, 80, 60]
//       variants:
//         - {name: fine, part: pc-ivory, support: acr-clear, part-nozzle: h04, support-nozzle: s04, print-minutes: 840,
//            part-cm3: 210, support-cm3: 40, chamber-c: 125}
//     - {id: 7401, setup: A, print-minutes: {bay-1: 54, bay-2: 61}}     # by label: planned, not guided

#include "model/stock/setup.h"
#include "model/catalogue/fleet.h"

#include <algorithm>
#include <map>

namespace interlude {

using JobId = QString;

struct Variant {
    QString name;
    Setup setup;
    Minutes print{0};                      ///< on any printer …
    std::map<PrinterId, Minutes> printOn; ///< … unless stated for that one
    Volume partVolume;
    Volume supportVolume;
    bool operator==(const Variant&) const = default;
    Minutes printMinutes(const PrinterId& printer) const {
        const auto found = printOn.find(printer);
        return found == printOn.end() ? print : found->second;
    }
};

enum class JobState { Open, Printing, PartLying, Done, Failed, Withdrawn };

struct Job {
    JobId id;
    QString title, partNumber, revision, order, buildFile, buildSha256;
    int quantity = 1;
    std::optional<Instant> release, due;
    Money lateCostPerHour;
    Money holdingCostPerHour = Money::fromCents(100);
    bool sameLot = false;
    QStringList printers;
    std::optional<Envelope> envelope;
    QList<Variant> variants;
    JobState state = JobState::Open;
    int rank = 0; ///< file order, then order of entry

    /// Where the variant of that name stands in `variants`; -1 if there is none.
    int variantNumber(const QString& name) const {
        const auto found = std::find_if(variants.cbegin(), variants.cend(), [&](const Variant& v) { return v.name == name; });
        return found == variants.cend() ? -1 : static_cast<int>(found - variants.cbegin());
    }
    /// Null if there is none of that name.
    const Variant* variantNamed(const QString& name) const {
        const int number = variantNumber(name);
        return number < 0 ? nullptr : &variants[number];
    }
};

} // namespace interlude
