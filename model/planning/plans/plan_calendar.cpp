// iCalendar (RFC 5545) by libical, which knows folding, escaping and time formats.

#include "model/planning/plans/plan_report.h"

#include <libical/ical.h>

namespace interlude::planning {

namespace {

icaltimetype timeOf(Instant t) {
    return icaltime_from_timet_with_zone(static_cast<time_t>(toMs(t) / 1000), 0, icaltimezone_get_utc_timezone());
}

struct Stretch {
    Minute from = never, to = -never, handsOn = 0;
    int people = 0;
};

/// From the first piece of work to the last before the print, with the most people that any of it needs.
Stretch stretchOf(const TimedJob& j) {
    Stretch s;
    for (const TimedWork& w : j.work) {
        if (w.work->kind == Kind::PartRemoval || w.work->kind == Kind::Preparation) continue;
        s.from = std::min(s.from, w.start);
        s.to = std::max(s.to, w.end);
        s.people = std::max(s.people, w.work->people);
        s.handsOn += w.work->people > 0 ? w.end - w.start : 0;
    }
    return s;
}

/// "People needed: 1. Hands-on: 12 min of 16 min, and 1 min of waiting between. Print starts Thu 26 Nov 11:08."
QString detailOf(const ShopProblem& problem, const TimedJob& j, const Stretch& s) {
    const Minute waits = s.to - s.from - j.changeoverMinutes;
    return QStringLiteral("People needed: %1. Hands-on: %2 min of %3 min%4. Print starts %5.")
        .arg(s.people)
        .arg(s.handsOn)
        .arg(j.changeoverMinutes)
        .arg(waits > 0 ? QStringLiteral(", and %1 min of waiting between").arg(waits) : QString(),
             toZone(problem.at(j.printStart), problem.changes->ground().catalogue->fleet.zone).toString(QStringLiteral("ddd d MMM HH:mm")));
}

icalcomponent* eventOf(const ShopProblem& problem, const TimedJob& j, const Printer& printer, const QString& fleet) {
    const Stretch s = stretchOf(j);
    const Job& job = problem.jobs[j.job];
    const QString setup = setupText(job.variants[j.variant].setup);
    const QString summary = QStringLiteral("%1: changeover to %2 (job %3)").arg(printer.name, setup, job.id);
    const QString detail = detailOf(problem, j, s);
    const QString uid = QStringLiteral("%1-%2-%3@%4.interlude")
                            .arg(job.id, printer.id)
                            .arg(toMs(problem.at(s.from)) / 60000)
                            .arg(fleet);
    icalcomponent* e = icalcomponent_new_vevent();
    icalcomponent_add_property(e, icalproperty_new_uid(uid.toUtf8().constData()));
    icalcomponent_add_property(e, icalproperty_new_dtstamp(timeOf(problem.now)));
    icalcomponent_add_property(e, icalproperty_new_dtstart(timeOf(problem.at(s.from))));
    icalcomponent_add_property(e, icalproperty_new_dtend(timeOf(problem.at(s.to))));
    icalcomponent_add_property(e, icalproperty_new_summary(summary.toUtf8().constData()));
    icalcomponent_add_property(e, icalproperty_new_description(detail.toUtf8().constData()));
    icalcomponent_add_property(e, icalproperty_new_location(printer.name.toUtf8().constData()));
    return e;
}

} // namespace

QByteArray toCalendar(const ShopProblem& problem, const PlanReport& report, const Catalogue& catalogue) {
    icalcomponent* calendar = icalcomponent_new_vcalendar();
    icalcomponent_add_property(calendar, icalproperty_new_version("2.0"));
    icalcomponent_add_property(calendar, icalproperty_new_prodid("-//Interlude//changeover plan//EN"));
    for (std::size_t p = 0; p < report.timetable.printers.size(); ++p)
        for (const TimedJob& j : report.timetable.printers[p]) {
            // Where nothing is done there is nothing to come for.
            if (j.running || j.job < 0 || stretchOf(j).to <= stretchOf(j).from) continue;
            icalcomponent_add_component(
                calendar, eventOf(problem, j, catalogue.fleet.printers[static_cast<qsizetype>(p)], catalogue.fleet.id));
        }
    char* text = icalcomponent_as_ical_string_r(calendar);
    const QByteArray out(text);
    icalmemory_free_buffer(text);
    icalcomponent_free(calendar);
    return out;
}

} // namespace interlude::planning
