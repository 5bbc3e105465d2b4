#include "model/records/record.h"

namespace interlude {

namespace {

QString withCorrections(const RecordEntry& e) {
    QString out = QStringLiteral("%1: %2").arg(e.label, e.value);
    for (const RecordCorrection& c : e.corrections)
        out += QStringLiteral(" → %1 (corrected %2 by %3: %4)").arg(c.corrected, c.at, c.who, c.reason);
    return e.remark.isEmpty() ? out : QStringLiteral("%1 (%2)").arg(out, e.remark);
}

void add(QStringList& out, const QString& heading, const QList<RecordLine>& lines) {
    if (lines.isEmpty()) return;
    out << QString() << heading;
    for (const RecordLine& l : lines) out += QStringLiteral("%1\t%2").arg(l.label, l.value);
}

void add(QStringList& out, const QString& heading, const QStringList& items) {
    if (items.isEmpty()) return;
    out << QString() << heading;
    out += items;
}

QString stepText(const RecordStep& s) {
    QStringList done;
    if (!s.state.isEmpty()) done += s.state;
    for (const RecordEntry& e : s.entries) done += withCorrections(e);
    done += s.overrides;
    done += s.takenBack;
    return QStringList{QString::number(s.number), s.title, s.planned, s.actual, s.begun, s.ended,
                       s.late ? s.who + QStringLiteral(" late") : s.who, done.join(QStringLiteral("; "))}
        .join(QLatin1Char('\t'));
}

} // namespace

QString toText(const Record& r) {
    QStringList out{QStringLiteral("%1 · %2").arg(r.title, r.printer), QStringLiteral("Revision %1%2 · %3").arg(QString::number(r.revision), r.draft ? QStringLiteral(" (draft, not issued)") : QString(), r.state),
                    r.shopName};
    if (r.example) out += QStringLiteral("EXAMPLE: an invented shop; no such work was done");
    if (!r.standing.isEmpty()) out += r.standing;
    add(out, QStringLiteral("What was changed over"), r.head + r.nozzles + r.materials);
    add(out, QStringLiteral("Residue and clean-out"), r.cleanOut);
    out << QString() << QStringLiteral("#\tstep\tplanned\tactual\tbegun\tended\twho\tconfirmed");
    for (const RecordStep& s : r.steps) out += stepText(s);
    add(out, QStringLiteral("Overrides before the start"), r.overrides);
    add(out, QStringLiteral("Warnings when it began"), r.warnings);
    add(out, QStringLiteral("Interruptions"), r.interruptions);
    add(out, QStringLiteral("Problems"), r.problems);
    QStringList photos;
    for (const RecordPhoto& p : r.photos) photos += QStringLiteral("photo %1\tSHA-256 %2").arg(photos.size() + 1).arg(p.sha256);
    add(out, QStringLiteral("Photos"), photos);
    add(out, QStringLiteral("Temperatures read beside the steps"), r.readings);
    QStringList corrections;
    for (const RecordEntry& e : r.corrections) corrections += withCorrections(e);
    add(out, QStringLiteral("Other corrections"), corrections);
    add(out, QStringLiteral("Calibration results"), r.calibration);
    add(out, QStringLiteral("Instruments"), r.instruments);
    add(out, QStringLiteral("Cautions that applied"), r.cautions);
    add(out, QStringLiteral("Disposition"), QStringList{r.disposition});
    add(out, QStringLiteral("Where this comes from"), r.foot);
    return out.join(QLatin1Char('\n')) + QLatin1Char('\n');
}

} // namespace interlude
