#include "model/shop/fold/fold.h"

namespace interlude {

void Fold::keepJob(const Job& j) {
    Job kept = j;
    kept.state = JobState::Open;
    kept.rank = m_shop.m_jobsEver++;
    m_shop.m_jobs.insert(kept.id, kept);
}

Fold::Trouble Fold::on(const act::JobOpening& x) {
    if (job(x.job.id))
        return repeated(QStringLiteral("job"), x.job.id);
    keepJob(x.job);
    return {};
}

Fold::Trouble Fold::on(const act::JobAdded& x) {
    if (job(x.job.id))
        return repeated(QStringLiteral("job"), x.job.id);
    keepJob(x.job);
    return {};
}

Fold::Trouble Fold::on(const act::JobChanged& x) {
    Job* j = job(x.job.id);
    if (!j)
        return unknown(QStringLiteral("job"), x.job.id);
    const JobState state = j->state;
    const int rank = j->rank;
    *j = x.job;
    j->state = state;
    j->rank = rank;
    return {};
}

Fold::Trouble Fold::on(const act::JobWithdrawn& x) {
    Job* j = job(x.job);
    if (!j)
        return unknown(QStringLiteral("job"), x.job);
    j->state = JobState::Withdrawn;
    return {};
}

} // namespace interlude
