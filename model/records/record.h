#pragma once
// What a session record says (design section 8). Assembling it is the model's; painting it is a view's.

#include "model/shop/shop.h"

namespace interlude {

struct RecordLine { QString label, value; };
struct RecordStep {
    int number = 0;
    QString group, title;
    QString planned, actual;     ///< minutes
    QString begun, ended;        ///< shop's local time
    QString who;
    bool late = false, skipped = false;
    QStringList entries;         ///< scans (marked *typed*), answers, readings with limits, instrument, calibration date
    QStringList overrides;       ///< reason and approver, or "not approved by a second person"
    QStringList corrections;     ///< beside the original
    QStringList cautions;        ///< signal word and text
    QStringList toFill;          ///< of a checklist: what is written in by hand ("scan N-118", "X offset, mm, −0.1 to 0.1")
};

struct Record {
    qint64 session = 0;
    int revision = 1;
    bool blank = false;          ///< the empty checklist
    bool example = false;
    QString title, shopName, printer, state;
    QList<RecordLine> head;      ///< from/to, job, part number, build file …
    QList<RecordLine> materials; ///< lots, spools
    QList<RecordLine> nozzles;   ///< serials, run volumes before and after
    QList<RecordLine> cleanOut;  ///< residue, rule, verdict, what was done
    QList<RecordStep> steps;
    QList<RecordLine> calibration;
    QStringList overrides, corrections, interruptions, problems, cautions;
    QString disposition;
    QList<RecordLine> foot;      ///< program version, catalogue hash, ledger position and hash
    QString verificationText;    ///< what the QR code says
};

Record recordOf(const Shop& shop, const SessionState& session, Instant printedAt);
/// The empty checklist of a changeover that has not begun.
Record checklistOf(const Shop& shop, const Changeover& changeover, Instant printedAt);
QJsonObject toJson(const Record& r);

} // namespace interlude
