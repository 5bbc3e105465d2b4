#include "model/shop/fold/fold.h"

namespace interlude {

Fold::Trouble Fold::on(const act::PlanPublished& x) {
    m_shop.m_plan = PublishedPlan{x.plan, m_at, m_event.who, m_event.sequence};
    return {};
}

Fold::Trouble Fold::on(const act::AbsenceEntered& x) {
    if (m_shop.m_absences.contains(x.absence.id)) return repeated(QStringLiteral("absence"), x.absence.id);
    m_shop.m_absences.insert(x.absence.id, x.absence);
    return {};
}

Fold::Trouble Fold::on(const act::AbsenceWithdrawn& x) {
    if (m_shop.m_absences.remove(x.id) == 0) return unknown(QStringLiteral("absence"), x.id);
    return {};
}

Fold::Trouble Fold::on(const act::DowntimePlanned& x) {
    if (m_shop.m_downtimes.contains(x.downtime.id)) return repeated(QStringLiteral("downtime"), x.downtime.id);
    m_shop.m_downtimes.insert(x.downtime.id, x.downtime);
    return {};
}

Fold::Trouble Fold::on(const act::DowntimeWithdrawn& x) {
    if (m_shop.m_downtimes.remove(x.id) == 0) return unknown(QStringLiteral("downtime"), x.id);
    return {};
}

} // namespace interlude
