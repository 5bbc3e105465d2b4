#include "views/bench/bench.h"

namespace interlude {

Bench::Bench(Workbench& workbench, QObject* parent) : QObject(parent), m_workbench(workbench) {
    connect(&workbench, &Workbench::changed, this, [this] { Q_EMIT changed(); });
}

void Bench::signIn(const QString& initials) {
    m_who = initials;
    Q_EMIT signedIn(initials);
}

Outcome<Event> Bench::perform(const Happening& h, std::optional<Instant> happenedAt) {
    auto done = m_workbench.perform(h, m_who, happenedAt);
    if (!done) Q_EMIT refused(done.error());
    return done;
}

QString Bench::shortTime(Instant t) const {
    const QDateTime then = toZone(t, catalogue().fleet.zone);
    const QDateTime today = toZone(now(), catalogue().fleet.zone);
    // Beyond a week a day's name means two days.
    const qint64 days = qAbs(today.date().daysTo(then.date()));
    return then.toString(days == 0 ? QStringLiteral("HH:mm")
                         : days < 7 ? QStringLiteral("ddd HH:mm")
                         : then.date().year() == today.date().year() ? QStringLiteral("d MMM HH:mm")
                                                                     : QStringLiteral("yyyy-MM-dd HH:mm"));
}

QString Bench::longTime(Instant t) const {
    return toZone(t, catalogue().fleet.zone).toString(QStringLiteral("ddd yyyy-MM-dd HH:mm"));
}

void Bench::tick() {
    m_workbench.watchClock();
    Q_EMIT ticked();
}

} // namespace interlude
