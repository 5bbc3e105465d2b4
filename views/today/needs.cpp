// Who is needed where, who is there, and what to look at.

#include "views/today/outlook.h"

#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("outlook", text);
}

/// What the step's own tools, nozzles and spools are, to be fetched before.
QString toFetch(const Catalogue& c, const PlannedStep& s) {
    QStringList out;
    for (qsizetype i = 0; i < s.step.confirm.scans.size(); ++i) {
        const ScanTarget t = s.step.confirm.scans.at(i).target;
        const bool in = t == ScanTarget::NozzleInPart || t == ScanTarget::NozzleInSupport ||
                        t == ScanTarget::SpoolInPart || t == ScanTarget::SpoolInSupport;
        if (in && !s.expectedScans.value(i).isEmpty()) out << s.expectedScans.at(i);
    }
    for (const QString& id : s.step.tools)
        if (const Tool* t = c.tool(id)) out << t->name.toLower();
    return out.join(QStringLiteral(", "));
}

/// Hands-on stretches that follow one another without a gap are one call for people.
void addSession(QList<Need>& out, const Shop& shop, const PrinterNow& p, const QList<Stretch>& stretches, Instant now) {
    const SessionState* session = shop.openSession(p.id);
    if (!session) return;
    std::optional<Instant> end;
    QString first;
    int steps = 0;
    for (const Stretch& s : stretches) {
        if (s.kind != Stretch::Kind::HandsOn) continue;
        const PlannedStep* planned = session->changeover.step(s.firstStep);
        const QString tools = planned ? toFetch(shop.catalogue(), *planned) : QString();
        if (end && *end == s.from && !out.isEmpty() && out.last().people == s.people) {
            Need& last = out.last();
            last.length += std::chrono::duration_cast<Minutes>(s.to - s.from);
            ++steps;
            last.what = tr("%1 + %2 more").arg(first, QString::number(steps));
        } else {
            steps = 0;
            Need n;
            n.printer = p.id;
            n.at = s.from;
            n.waitsNow = s.from <= now && session->phase == SessionPhase::Open;
            n.length = std::chrono::duration_cast<Minutes>(s.to - s.from);
            n.people = s.people;
            n.what = first = s.text;
            out.append(n);
        }
        for (const QString& f : tools.split(QStringLiteral(", "), Qt::SkipEmptyParts))
            if (!out.last().fetch.split(QStringLiteral(", ")).contains(f))
                out.last().fetch += (out.last().fetch.isEmpty() ? QString() : QStringLiteral(", ")) + f;
        end = s.to;
    }
}

void addPartOut(QList<Need>& out, const Shop& shop, const PrinterNow& p, Instant now) {
    if (shop.openSession(p.id)) return;
    const PrinterType* type = shop.catalogue().typeOf(p.id);
    Need n;
    n.printer = p.id;
    n.length = type ? type->partRemoval : Minutes(0);
    if (p.activity == Activity::PartLying) {
        n.at = p.lastPrintEnd.value_or(now);
        n.waitsNow = true;
        n.what = tr("part out, %1").arg(p.job);
        out.append(n);
    } else if (p.activity == Activity::Printing && p.printExpectedEnd) {
        n.at = *p.printExpectedEnd;
        n.waitsNow = n.at <= now;
        n.what = n.waitsNow ? tr("print %1 should have ended: look").arg(p.job) : tr("part out, %1").arg(p.job);
        out.append(n);
    }
}

void addSpool(QList<Worry>& out, const Shop& shop, const PrinterNow& p, Role role, Instant now) {
    const auto spool = shop.stock().spools.constFind(at(p, role).spool);
    if (spool == shop.stock().spools.cend()) return;
    const Material* m = shop.catalogue().material(spool->material);
    if (!m) return;
    if (dryState(*spool, *m, now) == DryState::Overdue)
        out.append({tr("Spool %1 on %2: overdue for drying, %3 in the open")
                        .arg(spool->id, shop.catalogue().printerName(p.id), words::stretch(exposure(*spool, now))),
                    true});
    const Job* job = p.activity == Activity::Printing ? shop.job(p.job) : nullptr;
    if (!job || !spool->left) return;
    for (const Variant& v : job->variants) {
        if (v.name != p.variant) continue;
        const Mass need = massOf(role == Role::Part ? v.partVolume : v.supportVolume, m->densityGPerCm3);
        if (*spool->left < need + spool->leftSe + spool->leftSe)
            out.append({tr("Spool %1 on %2: %3 left, job %4 needs %5")
                            .arg(spool->id, shop.catalogue().printerName(p.id), words::grams(*spool->left), job->id, words::grams(need)),
                        *spool->left < need});
    }
}

void addNozzle(QList<Worry>& out, const Shop& shop, const PrinterNow& p, Role role) {
    const auto nozzle = shop.stock().nozzles.constFind(at(p, role).nozzle);
    const NozzleType* type =
        nozzle == shop.stock().nozzles.cend() ? nullptr : shop.catalogue().nozzleType(nozzle->type);
    if (!type) return;
    constexpr double nearlyWorn = 0.85;
    const std::optional<double> used = lifeUsed(*nozzle, *type);
    if (used && *used >= nearlyWorn)
        out.append({tr("Nozzle %1 on %2: %3 % of its rated life used")
                        .arg(nozzle->serial, shop.catalogue().printerName(p.id), words::number(std::round(*used * 100.0))),
                    *used >= 1.0});
}

bool isOpenDay(const Fleet& fleet, const Shift& s, QDate day) {
    return s.days.contains(day.dayOfWeek()) && !fleet.closed.contains(day);
}

/// People who come with a shift, or (less than none) are away from it.
struct Presence {
    Instant from, to;
    int people = 0;
};

QList<Presence> presences(const Fleet& fleet, QDate today, const QMap<QString, PlannedAbsence>& absences) {
    QList<Presence> out;
    for (int back = -1; back <= 8; ++back)
        for (const Shift& s : fleet.shifts) {
            const QDate day = today.addDays(back);
            if (!isOpenDay(fleet, s, day)) continue;
            out.append({instantOf(QDateTime(day, s.from, fleet.zone)),
                        instantOf(QDateTime(s.to <= s.from ? day.addDays(1) : day, s.to, fleet.zone)), s.crew});
        }
    for (const PlannedAbsence& a : absences) out.append({a.from, a.to, -a.people});
    return out;
}

int peopleAt(const QList<Presence>& all, Instant t) {
    int people = 0;
    for (const Presence& p : all)
        if (p.from <= t && t < p.to) people += p.people;
    return std::max(0, people);
}

} // namespace

QList<Need> needs(const Shop& shop, Instant now, Instant until) {
    QList<Need> out;
    for (const PrinterNow& p : shop.printers()) {
        QList<Need> here;
        addSession(here, shop, p, outlook(shop, p, now), now);
        addPartOut(here, shop, p, now);
        for (const Need& n : here)
            if (n.at < until) out.append(n);
    }
    std::stable_sort(out.begin(), out.end(), [&](const Need& a, const Need& b) {
        if (a.waitsNow != b.waitsNow) return a.waitsNow;
        return a.at < b.at;
    });
    return out;
}

CrewNow crewAt(const Fleet& fleet, Instant now, const QMap<QString, PlannedAbsence>& absences) {
    CrewNow out;
    out.unlimited = fleet.crewUnlimited;
    if (out.unlimited) return out;
    const QList<Presence> all = presences(fleet, toZone(now, fleet.zone).date(), absences);
    out.people = peopleAt(all, now);
    out.present = out.people > 0;
    const auto sooner = [&](Instant t) {
        if (t > now && (!out.until || t < *out.until)) out.until = t;
    };
    for (const Presence& p : all) {
        // A crew stays what it is until one of its shifts ends, or somebody goes or comes back.
        if (out.present && (p.people < 0 || p.from <= now)) sooner(p.to);
        if (out.present && p.people < 0) sooner(p.from);
        if (out.present) continue;
        for (const Instant t : {p.from, p.to})
            if (t > now && peopleAt(all, t) > 0) sooner(t);
    }
    return out;
}

QList<Worry> worries(const Shop& shop, Instant now) {
    QList<Worry> out;
    for (const PrinterNow& p : shop.printers())
        for (const Role role : {Role::Part, Role::Support}) {
            addSpool(out, shop, p, role, now);
            addNozzle(out, shop, p, role);
        }
    std::stable_sort(out.begin(), out.end(), [](const Worry& a, const Worry& b) { return a.wrong && !b.wrong; });
    return out;
}

} // namespace interlude
