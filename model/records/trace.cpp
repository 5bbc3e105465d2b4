#include "model/records/trace.h"

#include "model/records/wording.h"

#include <algorithm>

namespace interlude {

namespace {

constexpr std::pair<TraceBy, const char*> words[] = {
    {TraceBy::Lot, "lot"}, {TraceBy::Nozzle, "nozzle"}, {TraceBy::Part, "part"}, {TraceBy::Job, "job"}};

QString spoolLine(const Spool& s, const Catalogue& c) {
    const Material* m = c.material(s.material);
    QStringList said{m ? m->name : s.material};
    if (!s.lot.isEmpty()) said.append(QStringLiteral("lot %1").arg(s.lot));
    if (s.where == SpoolWhere::Retired) said.append(QStringLiteral("retired: %1").arg(s.retiredWhy));
    else said.append(QStringLiteral("at %1").arg(s.place.isEmpty() ? QStringLiteral("a place not stated") : s.place));
    if (s.left && s.where != SpoolWhere::Retired) said.append(QStringLiteral("%1 g left").arg(s.left->grams(), 0, 'f', 0));
    return QStringLiteral("spool %1: %2").arg(s.id, said.join(QStringLiteral(", ")));
}

QString jobLine(const Job& j) {
    QStringList said;
    if (!j.title.isEmpty()) said.append(j.title);
    if (!j.partNumber.isEmpty())
        said.append(QStringLiteral("part %1%2").arg(j.partNumber, j.revision.isEmpty() ? QString() : QStringLiteral(" revision ") + j.revision));
    if (!j.order.isEmpty()) said.append(QStringLiteral("order %1").arg(j.order));
    said.append(QStringLiteral("quantity %1").arg(j.quantity));
    if (!j.buildSha256.isEmpty()) said.append(QStringLiteral("build file %1, SHA-256 %2").arg(j.buildFile, j.buildSha256));
    return QStringLiteral("job %1: %2").arg(j.id, said.join(QStringLiteral(", ")));
}

class Tracing {
public:
    Tracing(const Shop& shop, const QString& id) : m_shop(shop), m_id(id) {}

    void byLot() {
        QSet<SpoolId> ofLot;
        for (const Spool& s : m_shop.allSpools()) {
            if (m_id.isEmpty() || s.lot.compare(m_id, Qt::CaseInsensitive) != 0) continue;
            ofLot.insert(s.id);
            m_out.about.append(spoolLine(s, m_shop.catalogue()));
        }
        take([&](const PrintRun& run) {
            return std::any_of(run.spools.begin(), run.spools.end(), [&](const SpoolId& s) { return ofLot.contains(s); });
        });
    }
    void byNozzle() {
        const Nozzle* n = m_shop.nozzle(m_id);
        if (!n) return;
        const NozzleType* type = m_shop.nozzleType(n->type);
        m_out.about.append(QStringLiteral("nozzle %1: %2, use so far %3").arg(n->serial, type && !type->name.isEmpty() ? type->name : n->type, wording::runVolume(n->run)));
        if (n->where == NozzleWhere::Retired) m_out.about.append(QStringLiteral("retired: %1").arg(n->retiredWhy));
        take([&](const PrintRun& run) { return run.nozzles.contains(m_id); });
    }
    void byJobs(const std::function<bool(const Job&)>& wanted) {
        QSet<JobId> jobs;
        for (const Job& j : m_shop.allJobs()) {
            if (!wanted(j)) continue;
            jobs.insert(j.id);
            m_out.about.append(jobLine(j));
        }
        take([&](const PrintRun& run) { return jobs.contains(run.job); });
        QSet<qint64> printed;
        for (const TracedPrint& p : m_out.prints) printed.insert(p.run.session);
        for (const SessionSummary& s : m_shop.sessionList())
            if (jobs.contains(s.job) && !printed.contains(s.number)) m_out.sessions.append(s);
    }
    Trace result() { return std::move(m_out); }

private:
    void take(const std::function<bool(const PrintRun&)>& wanted) {
        for (const PrintRun& run : m_shop.allPrints()) {
            if (!wanted(run)) continue;
            TracedPrint p;
            p.run = run;
            if (const Job* j = m_shop.job(run.job)) p.job = *j;
            else p.job.id = run.job;
            for (const SpoolId& id : run.spools)
                if (const Spool* s = m_shop.spool(id)) p.spools.append(*s);
            m_out.prints.append(p);
        }
    }

    const Shop& m_shop;
    QString m_id;
    Trace m_out;
};

QString printLine(const TracedPrint& p, const Catalogue& c) {
    const QString ended = p.run.ended ? QStringLiteral(" to ") + wording::localTime(*p.run.ended, c.fleet.zone) : QString();
    QString out = QStringLiteral("  %1%2, %3: %4\n").arg(wording::localTime(p.run.started, c.fleet.zone), ended, c.printerName(p.run.printer), outcomeWord(p.run));
    out += QStringLiteral("    %1\n").arg(jobLine(p.job));
    out += QStringLiteral("    lots %1; nozzles %2; %3\n")
               .arg(p.lots().isEmpty() ? QStringLiteral("not known") : p.lots(),
                    p.run.nozzles.isEmpty() ? QStringLiteral("not known") : p.run.nozzles.join(QStringLiteral(", ")),
                    p.run.session > 0 ? QStringLiteral("record of session %1").arg(p.run.session) : QStringLiteral("started without a changeover session"));
    return out;
}

} // namespace

std::optional<TraceBy> traceBy(const QString& said) {
    for (const auto& [by, name] : words)
        if (said == QLatin1String(name)) return by;
    return {};
}

QString word(TraceBy by) {
    for (const auto& [each, name] : words)
        if (each == by) return QString::fromLatin1(name);
    return {};
}

QString TracedPrint::lots() const {
    QStringList out;
    QMap<QString, QStringList> byLot;
    for (const Spool& s : spools) byLot[s.lot].append(s.id);
    for (auto it = byLot.begin(); it != byLot.end(); ++it)
        out.append(QStringLiteral("%1 (%2)").arg(it.key().isEmpty() ? QStringLiteral("not stated") : it.key(), it.value().join(QStringLiteral(", "))));
    return out.join(QStringLiteral(", "));
}

QString outcomeWord(const PrintRun& run) {
    if (!run.ended) return QStringLiteral("running");
    if (!run.outcome) return QStringLiteral("not said");
    switch (*run.outcome) {
    case PrintOutcome::Good: return QStringLiteral("good");
    case PrintOutcome::Failed: return QStringLiteral("failed");
    case PrintOutcome::Stopped: return QStringLiteral("stopped");
    }
    return {};
}

Outcome<Trace> trace(const Shop& shop, TraceBy by, const QString& said) {
    const QString id = said.trimmed();
    Tracing tracing(shop, id);
    switch (by) {
    case TraceBy::Lot: tracing.byLot(); break;
    case TraceBy::Nozzle: tracing.byNozzle(); break;
    case TraceBy::Part: tracing.byJobs([&](const Job& j) { return !id.isEmpty() && j.partNumber.compare(id, Qt::CaseInsensitive) == 0; }); break;
    case TraceBy::Job: tracing.byJobs([&](const Job& j) { return j.id == id; }); break;
    }
    Trace out = tracing.result();
    out.by = by;
    out.id = id;
    if (out.about.isEmpty())
        return refusal(QStringLiteral("trace-unknown"), QStringLiteral("Nothing is known of %1 %2").arg(by == TraceBy::Part ? QStringLiteral("a part") : word(by), id),
                       by == TraceBy::Part ? QStringLiteral("name its part number as the jobs do") : QStringLiteral("check how it is written"), id);
    return out;
}

QString traceText(const Trace& t, const Catalogue& c) {
    QString out = t.about.join(QLatin1Char('\n')) + QLatin1Char('\n');
    out += t.prints.isEmpty() ? QStringLiteral("no print since the ledger began\n")
                              : QStringLiteral("%1 print%2\n").arg(t.prints.size()).arg(t.prints.size() == 1 ? QString() : QStringLiteral("s"));
    for (const TracedPrint& p : t.prints) out += printLine(p, c);
    for (const SessionSummary& s : t.sessions)
        out += QStringLiteral("  session %1 on %2, %3: a changeover without a print\n").arg(s.number).arg(c.printerName(s.printer), wording::localTime(s.started, c.fleet.zone));
    return out;
}

} // namespace interlude
