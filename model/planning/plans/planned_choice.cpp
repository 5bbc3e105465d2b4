#include "model/planning/plans/planned_choice.h"

#include "model/planning/plans/published.h"

#include <algorithm>

namespace interlude::planning {

namespace {

bool isPlanned(const Shop& shop, const PrinterId& printer, const JobId& job, const QString& variant) {
    if (!shop.plan()) return false;
    for (const PrinterOrder& order : shop.plan()->plan.printers)
        for (const PlannedJob& p : order.jobs)
            if (order.printer == printer && p.job == job && p.variant == variant) return true;
    return false;
}

} // namespace

std::array<NozzleSerial, 2> nozzlesPlanned(const Shop& shop, const PrinterId& printer, const JobId& job, const QString& variant,
                                           Instant now) {
    std::array<NozzleSerial, 2> out;
    // Timing a plan is dear beside everything else here.
    if (!isPlanned(shop, printer, job, variant)) return out;
    const ShopProblem problem = shopProblem(shop, now);
    const int number = problem.printerNumbers.value(printer, -1);
    const int wanted = problem.jobNumbers.value(job, -1);
    if (number < 0 || wanted < 0) return out;
    const Timetable times = timetable(problem.problem, *problem.changes, publishedOrders(shop, problem));
    for (const TimedJob& j : times.printers[static_cast<std::size_t>(number)]) {
        if (j.job != wanted || j.running || j.session || problem.jobs[j.job].variants.value(j.variant).name != variant) continue;
        for (const TimedWork& w : j.work)
            for (std::size_t i = 0; i < out.size(); ++i)
                if (w.took[i] >= 0) out[i] = QString::fromStdString(problem.problem.nozzles[static_cast<std::size_t>(w.took[i])].serial);
    }
    return out;
}

namespace {

/// Tries one piece after the other against the choice by rule.
class Preference {
public:
    Preference(const Shop& shop, TransitionRequest request, Instant now)
        : m_shop(shop), m_request(std::move(request)), m_now(now), m_judged(judge(m_request)) {}

    void nozzles(const std::array<NozzleSerial, 2>& planned) {
        prefer(&TransitionRequest::choosePartNozzle, planned[PartPosition]);
        prefer(&TransitionRequest::chooseSupportNozzle, planned[SupportPosition]);
    }
    void spools(const QList<SpoolKept>& kept) {
        for (const SpoolKept& k : kept) {
            if (k.job != m_request.job) continue;
            if (k.material == m_request.wanted.part) prefer(&TransitionRequest::choosePartSpool, k.spool);
            if (k.material == m_request.wanted.support) prefer(&TransitionRequest::chooseSupportSpool, k.spool);
        }
    }
    bool exchanges(Role role) const {
        return std::any_of(m_judged.nozzles.begin(), m_judged.nozzles.end(),
                           [&](const NozzleChange& c) { return c.role == role && c.exchange; });
    }
    TransitionRequest request() const { return m_request; }

private:
    Transition judge(const TransitionRequest& r) const { return judgeTransition(m_shop.catalogue(), m_shop.stock(), r, m_now); }
    void prefer(QString TransitionRequest::*choice, const QString& piece) {
        if (piece.isEmpty() || !(m_request.*choice).isEmpty()) return;
        TransitionRequest with = m_request;
        with.*choice = piece;
        Transition judged = judge(with);
        if (refusalsIn(judged.verdicts).size() > refusalsIn(m_judged.verdicts).size()) return;
        m_request = std::move(with);
        m_judged = std::move(judged);
    }

    const Shop& m_shop;
    TransitionRequest m_request;
    Instant m_now;
    Transition m_judged;
};

} // namespace

TransitionRequest asPlanned(const Shop& shop, TransitionRequest request, Instant now) {
    if (!shop.plan() || request.job.isEmpty() || !stillWaits(shop, request.job)) return request;
    const PrinterId printer = request.now.id;
    const JobId job = request.job;
    const QString variant = request.variant;
    Preference p(shop, std::move(request), now);
    // What stays mounted needs no plan.
    if (p.exchanges(Role::Part) || p.exchanges(Role::Support)) {
        std::array<NozzleSerial, 2> planned = nozzlesPlanned(shop, printer, job, variant, now);
        if (!p.exchanges(Role::Part)) planned[PartPosition].clear();
        if (!p.exchanges(Role::Support)) planned[SupportPosition].clear();
        p.nozzles(planned);
    }
    p.spools(spoolsKept(shop, now));
    return p.request();
}

} // namespace interlude::planning
