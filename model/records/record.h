#pragma once
// What a session record says (design section 8). Assembling it is the model's; painting it is a view's.

#include "model/shop/shop.h"

namespace interlude {

struct RecordLine { QString label, value; };

/// A later correction; the original stays readable beside it.
struct RecordCorrection { QString corrected, reason, who, at; };

/// One thing that was confirmed, measured or noted in a step. A correction names it by `event` and `field` in
/// act::Corrected, with `value` as the original.
struct RecordEntry {
    enum Kind { Other, Scan, Answer, Reading };
    QString label, value;
    QString remark;      ///< limits, instrument with its calibration date, *typed*, *outside its limits*
    QString field;       ///< unique within the step; `begun`, `ended`, `who` for the row's own columns
    qint64 event = 0;    ///< 0: nothing that could be corrected
    QList<RecordCorrection> corrections;
    Kind kind = Other;
    QString brief = {};      ///< the remark without what the list of instruments says once
    bool asRequired = false; ///< an answer that the procedure requires, given as it requires
};

struct RecordStep {
    int number = 0;
    QString group, title;
    QString planned, actual;     ///< minutes, rounded up; `planned` is `measure` where nothing could be predicted
    QString begun, ended;        ///< shop's local time, with the day when it is not the session's first
    QString who;
    bool late = false, skipped = false;
    QString state;               ///< empty when done; else `skipped`, `not done`, `not yet done`
    qint64 event = 0;            ///< sequence of the confirming event
    QList<RecordEntry> entries;  ///< scans, answers, readings, temperature, use so far, note
    QStringList overrides;       ///< reason and approver, or "not approved by a second person"
    QStringList takenBack;       ///< earlier confirmations that were taken back, with the reason
    QStringList cautions;        ///< signal word and text
    QString before;              ///< of a checklist: what must hold first (protection, power, only below a temperature)
    QStringList toFill;          ///< of a checklist: what is written in by hand ("scan N-118", "X offset, mm, −0.1 to 0.1")
};

/// A kind of caution and the numbers of the steps that bear it: "WARNING", "hot surface", "3, 8, 9".
struct RecordCaution { QString word, subject, steps; };

/// A photo of a problem; `problem` is its place in the list of problems, counted from 1.
struct RecordPhoto {
    int problem = 0;
    QString sha256;
};

struct Record {
    qint64 session = 0;
    int revision = 1;
    bool blank = false;          ///< the empty checklist
    bool example = false;
    bool draft = false;          ///< this content was not issued (yet): the same revision may still change
    bool finished = false;       ///< all was done; false for a checklist and for what was stopped or is open
    QString title, shopName, printer, state;
    QString standing;            ///< what must be read first: not finished, stopped half way, entered late; else empty
    QList<RecordLine> head;      ///< from/to, job, part number, build file …
    QList<RecordLine> materials; ///< lots, spools
    QList<RecordLine> nozzles;   ///< serials, run volumes before and after
    QList<RecordLine> cleanOut;  ///< residue, rule, verdict, what was done
    QList<RecordStep> steps;
    QList<RecordLine> calibration;
    QStringList overrides, interruptions, problems, cautions;
    QList<RecordPhoto> photos;   ///< in the order of the problems; the first is "photo 1"
    QString photoFolder;         ///< where their files lie; set by who prints, no part of what the record says
    QList<RecordEntry> corrections; ///< of anything that is not in a step's row
    QList<RecordCaution> cautionsByStep;
    QList<RecordLine> instruments; ///< each that was used: its name, calibration date, when it is due again
    QStringList readings;        ///< temperatures read beside the steps
    QStringList warnings;        ///< what was warned of when the session began
    QStringList people;          ///< "ML Mara Lind", everyone who signed
    QString disposition;
    QList<RecordLine> foot;      ///< program version, catalogue hash, ledger position and hash
    QString verificationText;    ///< what the QR code says: "interlude ledger FLEET POSITION HASH"
};

/// One recorded value that can be corrected: which event, which field, what holds now.
struct Correctable {
    qint64 event = 0;
    QString step, label, field, value;
};
/// Everything that was confirmed, latest step first; of a corrected value the latest correction. A step without a note
/// can be given one.
QList<Correctable> correctablesOf(const Record& record);

Record recordOf(const Shop& shop, const SessionState& session, Instant printedAt);
/// The empty checklist of a changeover that has not begun.
Record checklistOf(const Shop& shop, const Changeover& changeover, Instant printedAt);
QJsonObject toJson(const Record& r);
/// The record as plain text, for the clipboard: a line for each thing, columns apart by tabs.
QString toText(const Record& r);

} // namespace interlude
