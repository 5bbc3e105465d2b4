#include "views/plan/plan_words.h"

#include <QCoreApplication>
#include <QLocale>

#include <cmath>
#include <cstdlib>

namespace interlude::plan_words {

using planning::Goal;
using planning::Minute;

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(PlanWords)
};

/// The interface is in English; figures are written the same way in every place.
const QLocale& figures() {
    static const QLocale locale(QLocale::English, QLocale::UnitedKingdom);
    return locale;
}

QString withSign(double value, const QString& digits) {
    if (value > 0) return QLatin1Char('+') + digits;
    return value < 0 ? QStringLiteral("−") + digits : QStringLiteral("0");
}

} // namespace

QByteArray jobsToMime(const std::vector<int>& jobs) {
    QByteArray out;
    for (const int job : jobs) out += (out.isEmpty() ? "" : ",") + QByteArray::number(job);
    return out;
}

std::vector<int> jobsFromMime(const QByteArray& bytes, const planning::ShopProblem& problem) {
    std::vector<int> out;
    for (const QByteArray& part : bytes.split(',')) {
        bool good = false;
        const int job = part.toInt(&good);
        const bool known = good && job >= 0 && job < static_cast<int>(problem.jobs.size());
        if (known && std::find(out.begin(), out.end(), job) == out.end()) out.push_back(job);
    }
    return out;
}

QPoint aboveThePointer(const QSizeF& picture) {
    constexpr int between = 6;
    return QPoint(static_cast<int>(picture.width()) + between, static_cast<int>(picture.height()) + between);
}

QString money(planning::Cents cents) {
    const auto units = static_cast<qint64>(std::llround(static_cast<double>(cents) / 100.0));
    return (units < 0 ? QStringLiteral("−") : QString()) + figures().toString(std::abs(units));
}

QString shortDay(const Bench& bench, Instant t) {
    const QTimeZone zone = bench.catalogue().fleet.zone;
    const QDateTime then = toZone(t, zone);
    const qint64 days = toZone(bench.now(), zone).date().daysTo(then.date());
    if (days == 0) return then.toString(QStringLiteral("HH:mm"));
    return then.toString(days > 0 && days < 7 ? QStringLiteral("ddd") : QStringLiteral("d MMM"));
}

QString moneyChange(planning::Cents cents) {
    const double units = std::round(static_cast<double>(cents) / 100.0);
    return withSign(units, figures().toString(static_cast<qint64>(std::fabs(units))));
}

QString hours(Minute minutes) {
    return figures().toString(static_cast<double>(minutes) / 60.0, 'f', 1);
}

QString hoursChange(Minute minutes) {
    const double value = std::round(static_cast<double>(minutes) / 6.0) / 10.0;
    return withSign(value, figures().toString(std::fabs(value), 'f', 1));
}

QString length(Minute minutes) {
    if (minutes < 60) return Said::tr("%1 min").arg(minutes);
    if (minutes % 60 == 0) return Said::tr("%1 h").arg(minutes / 60);
    return Said::tr("%1 h %2 min").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
}

QString printer(const PlanDesk& desk, int printer) {
    const auto& all = desk.problem().problem.printers;
    if (printer < 0 || printer >= static_cast<int>(all.size())) return {};
    const QString id = QString::fromStdString(all[static_cast<std::size_t>(printer)].id);
    return desk.problem().changes->ground().catalogue->printerName(id);
}

QString job(const Job& job) {
    return job.title.isEmpty() ? job.id : QStringLiteral("%1 %2").arg(job.id, job.title);
}

QString time(const Bench& bench, const planning::ShopProblem& problem, Minute m) {
    return m >= planning::never ? Said::tr("never") : bench.shortTime(problem.at(m));
}

QString goal(Goal g) {
    switch (g) {
    case Goal::Cost: return Said::tr("cost");
    case Goal::Changeover: return Said::tr("changeover hours");
    case Goal::Tardiness: return Said::tr("cost of lateness");
    case Goal::Makespan: return Said::tr("end of the last job");
    }
    return {};
}

QString value(const Bench& bench, Goal g, std::int64_t value) {
    if (g == Goal::Cost) return QStringLiteral("%1 %2").arg(money(value), bench.catalogue().fleet.currency);
    // Cents per hour × minutes: a sixtieth of it is money.
    if (g == Goal::Tardiness) return QStringLiteral("%1 %2").arg(money(value / 60), bench.catalogue().fleet.currency);
    return Said::tr("%1 h").arg(hours(value));
}

int changeovers(const planning::Timetable& timetable) {
    int count = 0;
    for (const auto& list : timetable.printers)
        for (const planning::TimedJob& j : list) count += j.changeoverMinutes > 0 ? 1 : 0;
    return count;
}

} // namespace interlude::plan_words
