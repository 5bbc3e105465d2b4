#include "views/today/plan_ahead.h"

#include "model/planning/plans/published.h"
#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude {

using planning::Kind;
using planning::TimedJob;
using planning::TimedWork;

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("PlanAhead", text);
}

bool isAhead(const TimedJob& j) {
    return j.job >= 0 && !j.running && !j.session;
}

} // namespace

const PlanAhead::Reckoned* PlanAhead::reckoned() const {
    const Shop& shop = m_bench.shop();
    const Instant now = m_bench.now();
    const bool fresh = m_sequence == shop.lastSequence() && now >= m_at && now - m_at < std::chrono::minutes(1);
    if (fresh) return m_reckoned.get();
    m_sequence = shop.lastSequence();
    m_at = now;
    m_reckoned.reset();
    if (!shop.plan()) return nullptr;
    m_reckoned = std::make_unique<Reckoned>(Reckoned{planning::shopProblem(shop, now), {}, {}, {}});
    Reckoned& r = *m_reckoned;
    r.timetable = planning::timetable(r.problem.problem, *r.problem.changes, planning::publishedOrders(shop, r.problem));
    for (const planning::Departure& d : planning::departures(shop, now)) {
        r.worries.append({tr("%1 on %2: %3").arg(d.job, m_bench.catalogue().printerName(d.printer), d.reason), true});
        r.late.insert(d.job, d.reason);
    }
    return m_reckoned.get();
}

std::optional<PlanAhead::Next> PlanAhead::next(const PrinterId& printer) const {
    const Reckoned* r = reckoned();
    const int number = r ? r->problem.printerNumbers.value(printer, -1) : -1;
    if (number < 0) return {};
    for (const TimedJob& j : r->timetable.printers[static_cast<std::size_t>(number)]) {
        if (!isAhead(j)) continue;
        const Job& job = r->problem.jobs[j.job];
        Next n;
        n.job = job.id;
        n.title = job.title;
        n.variant = job.variants.value(j.variant).name;
        planning::Minute begins = j.printStart;
        for (const TimedWork& w : j.work) {
            if (w.work->kind != Kind::HandsOn && w.work->kind != Kind::Waiting) continue;
            begins = std::min(begins, w.start);
            n.people = std::max(n.people, w.work->people);
        }
        n.begins = r->problem.at(begins);
        n.length = Minutes(j.changeoverMinutes);
        n.printStart = r->problem.at(j.printStart);
        n.late = r->late.value(job.id);
        return n;
    }
    return {};
}

QList<Stretch> PlanAhead::stretches(const PrinterId& printer, Instant until) const {
    QList<Stretch> out;
    const Reckoned* r = reckoned();
    const int number = r ? r->problem.printerNumbers.value(printer, -1) : -1;
    if (number < 0) return out;
    const auto add = [&](Stretch::Kind kind, planning::Minute from, planning::Minute to, const QString& text) -> Stretch* {
        if (from >= planning::never || r->problem.at(from) >= until) return nullptr;
        Stretch s;
        s.kind = kind;
        s.from = r->problem.at(from);
        s.to = to >= planning::never ? until : r->problem.at(to);
        s.text = text;
        out.append(s);
        return &out.last();
    };
    for (const TimedJob& j : r->timetable.printers[static_cast<std::size_t>(number)]) {
        if (!isAhead(j)) continue;
        const Job& job = r->problem.jobs[j.job];
        for (const TimedWork& w : j.work) {
            if (w.work->kind == Kind::Preparation) continue;
            const bool waits = w.work->kind == Kind::Waiting;
            Stretch* s = add(waits ? Stretch::Kind::Waiting : Stretch::Kind::HandsOn, w.start, w.end, job.id);
            if (s) s->people = w.work->people;
        }
        Stretch* s = add(Stretch::Kind::Print, j.printStart, j.printEnd, tr("Print of %1").arg(job.id));
        if (s) s->material = job.variants.value(j.variant).setup.part;
    }
    std::stable_sort(out.begin(), out.end(), [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
    return out;
}

QString PlanAhead::toFetch(const TimedJob& j) const {
    const planning::ShopProblem& problem = m_reckoned->problem;
    QStringList out;
    for (const TimedWork& w : j.work)
        for (const int n : w.took)
            if (n >= 0) out << QString::fromStdString(problem.problem.nozzles[static_cast<std::size_t>(n)].serial);
    const Variant variant = problem.jobs[j.job].variants.value(j.variant);
    const MaterialId materials[] = {variant.setup.part, variant.setup.support};
    // A material that is purged or primed is loaded for this job.
    for (std::size_t i = 0; j.change && i < 2; ++i)
        if (j.change->purge[i] > 0 && !materials[i].isEmpty()) out << words::material(m_bench.catalogue(), materials[i]);
    return out.join(QStringLiteral(", "));
}

void PlanAhead::addJob(QList<Need>& out, const PrinterId& printer, const TimedJob& j, Instant until) const {
    const planning::ShopProblem& problem = m_reckoned->problem;
    const Job& job = problem.jobs[j.job];
    QString fetch = toFetch(j);
    std::optional<planning::Minute> end; // hands-on work without a gap is one call for people
    for (const TimedWork& w : j.work) {
        if (w.work->people == 0 || w.work->kind == Kind::Waiting || problem.at(w.start) >= until) continue;
        const bool goesOn = w.work->kind == Kind::HandsOn && end && *end == w.start && out.last().people == w.work->people;
        end = w.work->kind == Kind::HandsOn ? std::optional(w.end) : std::nullopt;
        if (goesOn) {
            out.last().length += Minutes(w.end - w.start);
            continue;
        }
        Need n;
        n.printer = printer;
        n.at = problem.at(w.start);
        n.waitsNow = n.at <= m_bench.now();
        n.length = Minutes(w.end - w.start);
        n.people = w.work->people;
        switch (w.work->kind) {
        case Kind::Preparation: n.what = tr("prepare for %1").arg(job.id); break;
        case Kind::PartRemoval: n.what = tr("part out, %1").arg(job.id); break;
        default: n.what = j.changeoverMinutes > 0 ? tr("changeover to %1").arg(job.id) : tr("start %1").arg(job.id);
        }
        if (w.work->kind != Kind::PartRemoval) n.fetch = std::exchange(fetch, QString());
        out.append(n);
    }
}

QList<Need> PlanAhead::needs(Instant until) const {
    QList<Need> out;
    const Reckoned* r = reckoned();
    if (!r) return out;
    for (std::size_t p = 0; p < r->timetable.printers.size(); ++p)
        for (const TimedJob& j : r->timetable.printers[p])
            if (isAhead(j)) addJob(out, QString::fromStdString(r->problem.problem.printers[p].id), j, until);
    return out;
}

QList<Worry> PlanAhead::worries() const {
    const Reckoned* r = reckoned();
    return r ? r->worries : QList<Worry>();
}

QList<Need> allNeeds(const Bench& bench, const PlanAhead* plan, Instant until) {
    QList<Need> all = needs(bench.shop(), bench.now(), until);
    if (!plan) return all;
    all += plan->needs(until);
    std::stable_sort(all.begin(), all.end(), [](const Need& a, const Need& b) {
        return a.waitsNow != b.waitsNow ? a.waitsNow : !a.waitsNow && a.at < b.at;
    });
    return all;
}

} // namespace interlude
