#include "model/records/record.h"

#include <QJsonArray>

namespace interlude {

namespace {

QJsonArray linesJson(const QList<RecordLine>& lines) {
    QJsonArray out;
    for (const RecordLine& l : lines) out.append(QJsonObject{{QStringLiteral("label"), l.label}, {QStringLiteral("value"), l.value}});
    return out;
}

QJsonArray entriesJson(const QList<RecordEntry>& entries) {
    QJsonArray out;
    for (const RecordEntry& e : entries) {
        QJsonArray corrections;
        for (const RecordCorrection& c : e.corrections)
            corrections.append(QJsonObject{{QStringLiteral("corrected"), c.corrected},
                                           {QStringLiteral("reason"), c.reason},
                                           {QStringLiteral("who"), c.who},
                                           {QStringLiteral("at"), c.at}});
        out.append(QJsonObject{{QStringLiteral("label"), e.label},
                               {QStringLiteral("value"), e.value},
                               {QStringLiteral("remark"), e.remark},
                               {QStringLiteral("event"), e.event},
                               {QStringLiteral("corrections"), corrections}});
    }
    return out;
}

QJsonObject stepJson(const RecordStep& s) {
    return {{QStringLiteral("number"), s.number},
            {QStringLiteral("group"), s.group},
            {QStringLiteral("title"), s.title},
            {QStringLiteral("planned-minutes"), s.planned},
            {QStringLiteral("actual-minutes"), s.actual},
            {QStringLiteral("begun"), s.begun},
            {QStringLiteral("ended"), s.ended},
            {QStringLiteral("who"), s.who},
            {QStringLiteral("entered-late"), s.late},
            {QStringLiteral("skipped"), s.skipped},
            {QStringLiteral("state"), s.state},
            {QStringLiteral("event"), s.event},
            {QStringLiteral("entries"), entriesJson(s.entries)},
            {QStringLiteral("overrides"), QJsonArray::fromStringList(s.overrides)},
            {QStringLiteral("taken-back"), QJsonArray::fromStringList(s.takenBack)},
            {QStringLiteral("cautions"), QJsonArray::fromStringList(s.cautions)}};
}

} // namespace

QJsonObject toJson(const Record& r) {
    QJsonArray photos;
    for (const RecordPhoto& p : r.photos)
        photos.append(QJsonObject{{QStringLiteral("problem"), p.problem}, {QStringLiteral("sha256"), p.sha256}});
    QJsonArray steps;
    for (const RecordStep& s : r.steps) steps.append(stepJson(s));
    return {{QStringLiteral("format"), QStringLiteral("interlude record 1")},
            {QStringLiteral("session"), r.session},
            {QStringLiteral("revision"), r.revision},
            {QStringLiteral("title"), r.title},
            {QStringLiteral("shop"), r.shopName},
            {QStringLiteral("example"), r.example},
            {QStringLiteral("printer"), r.printer},
            {QStringLiteral("state"), r.state},
            {QStringLiteral("draft"), r.draft},
            {QStringLiteral("finished"), r.finished},
            {QStringLiteral("standing"), r.standing},
            {QStringLiteral("instruments"), linesJson(r.instruments)},
            {QStringLiteral("head"), linesJson(r.head)},
            {QStringLiteral("materials"), linesJson(r.materials)},
            {QStringLiteral("nozzles"), linesJson(r.nozzles)},
            {QStringLiteral("clean-out"), linesJson(r.cleanOut)},
            {QStringLiteral("steps"), steps},
            {QStringLiteral("calibration"), linesJson(r.calibration)},
            {QStringLiteral("overrides"), QJsonArray::fromStringList(r.overrides)},
            {QStringLiteral("corrections"), entriesJson(r.corrections)},
            {QStringLiteral("interruptions"), QJsonArray::fromStringList(r.interruptions)},
            {QStringLiteral("problems"), QJsonArray::fromStringList(r.problems)},
            {QStringLiteral("photos"), photos},
            {QStringLiteral("readings"), QJsonArray::fromStringList(r.readings)},
            {QStringLiteral("warnings"), QJsonArray::fromStringList(r.warnings)},
            {QStringLiteral("people"), QJsonArray::fromStringList(r.people)},
            {QStringLiteral("cautions"), QJsonArray::fromStringList(r.cautions)},
            {QStringLiteral("disposition"), r.disposition},
            {QStringLiteral("foot"), linesJson(r.foot)},
            {QStringLiteral("verification"), r.verificationText}};
}

} // namespace interlude
