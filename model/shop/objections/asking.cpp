#include "model/shop/objections/asking.h"

#include <algorithm>

namespace interlude {

namespace {

constexpr Milliseconds clockSlack = Minutes(1);

/// Recorded by the program, signed by nobody.
bool isProgramsOwn(const Happening& h) {
    return std::visit(
        [](const auto& x) {
            using Act = std::decay_t<decltype(x)>;
            return std::is_same_v<Act, act::CatalogueRead> || std::is_same_v<Act, act::ExampleStarted> ||
                   std::is_same_v<Act, act::SpoolOpening> || std::is_same_v<Act, act::NozzleOpening> ||
                   std::is_same_v<Act, act::SetupOpening> || std::is_same_v<Act, act::JobOpening> ||
                   std::is_same_v<Act, act::PrintOpening> ||
                   std::is_same_v<Act, act::ProgramStarted> || std::is_same_v<Act, act::ClockJumped>;
        },
        h);
}

void askWho(Asking& a) {
    if (a.who.trimmed().isEmpty())
        return a.refuse("who", QStringLiteral("Nobody has signed in"), QStringLiteral("choose your initials"));
    const auto& people = a.shop.catalogue().fleet.people;
    if (!people.isEmpty() && !a.shop.catalogue().person(a.who))
        a.refuse("who", QStringLiteral("%1 is not one of the shop's people").arg(a.who),
                 QStringLiteral("choose initials from fleet.yaml, or add the person there"), a.who);
}

void askWhen(Asking& a) {
    if (a.happened > a.now + clockSlack)
        a.refuse("when", QStringLiteral("%1 lies in the future").arg(a.local(a.happened)),
                 QStringLiteral("check the date"));
    else if (a.happened < a.now - std::chrono::hours(24 * 366))
        a.refuse("when", QStringLiteral("%1 is more than a year ago").arg(a.local(a.happened)),
                 QStringLiteral("check the date"));
}

} // namespace

Findings objections(const Shop& shop, const Happening& h, const QString& who, Instant now,
                    std::optional<Instant> happenedAt) {
    Asking a{shop, who, now, happenedAt.value_or(now), {}};
    // A script may import as the program imports the folder's entries; a name that is given must be right.
    const bool mayBeUnsigned = isProgramsOwn(h) || (std::holds_alternative<act::Imported>(h) && who.isEmpty());
    if (!mayBeUnsigned)
        askWho(a);
    askWhen(a);
    std::visit([&](const auto& x) { object(a, x); }, h);
    std::stable_sort(a.found.begin(), a.found.end(),
                     [](const Finding& l, const Finding& r) { return l.severity > r.severity; });
    return a.found;
}

void Asking::refuse(const char* rule, const QString& reason, const QString& remedy, const QString& place,
                    bool overridable) {
    found.append(Finding{Severity::Refusal, QString::fromLatin1(rule), reason, remedy, place, overridable});
}

void Asking::warn(const char* rule, const QString& reason, const QString& remedy, const QString& place) {
    found.append(Finding{Severity::Warning, QString::fromLatin1(rule), reason, remedy, place, false});
}

const Spool* Asking::spool(const SpoolId& id) {
    const Spool* s = shop.spool(id);
    if (!s)
        refuse("unknown-id", QStringLiteral("There is no spool %1").arg(id), QStringLiteral("receive it first"), id);
    return s;
}

const Nozzle* Asking::nozzle(const NozzleSerial& id) {
    const Nozzle* n = shop.nozzle(id);
    if (!n)
        refuse("unknown-id", QStringLiteral("There is no nozzle %1").arg(id), QStringLiteral("receive it first"), id);
    return n;
}

QString Asking::local(Instant t) const {
    return toZone(t, shop.catalogue().fleet.zone).toString(QStringLiteral("yyyy-MM-dd HH:mm"));
}

QString Asking::named(const PrinterId& id) const {
    return shop.catalogue().printerName(id);
}

const PrinterNow* Asking::printer(const PrinterId& id) {
    const PrinterNow* p = shop.catalogue().printer(id) ? shop.printer(id) : nullptr;
    if (!p)
        refuse("unknown-id", QStringLiteral("There is no printer %1").arg(id), {}, id);
    return p;
}

const Job* Asking::job(const JobId& id) {
    const Job* j = shop.job(id);
    if (!j)
        refuse("unknown-id", QStringLiteral("There is no job %1").arg(id), QStringLiteral("add it first"), id);
    return j;
}

const SessionState* Asking::session(qint64 number) {
    const SessionState* s = shop.session(number);
    if (!s)
        refuse("unknown-id", QStringLiteral("There is no session %1").arg(number), {}, QString::number(number));
    return s;
}

const SessionState* Asking::runningSession(qint64 number) {
    const SessionState* s = session(number);
    if (!s)
        return nullptr;
    if (s->phase == SessionPhase::Open)
        return s;
    if (s->phase == SessionPhase::Paused)
        refuse("session-paused", QStringLiteral("Session %1 is paused").arg(number), QStringLiteral("resume it first"));
    else
        refuse("session-closed", QStringLiteral("Session %1 is closed").arg(number),
               QStringLiteral("record a correction, or start a new session"));
    return nullptr;
}

bool Asking::stated(const QString& text, const QString& what, const char* place) {
    if (!text.trimmed().isEmpty())
        return true;
    refuse("blank", QStringLiteral("%1 is missing").arg(what), QStringLiteral("fill it in"),
           QString::fromLatin1(place));
    return false;
}

void Asking::notNegative(qint64 value, const QString& what, const char* place) {
    if (value < 0)
        refuse("negative", QStringLiteral("%1 is negative").arg(what), QStringLiteral("zero or more"),
               QString::fromLatin1(place));
}

void Asking::dated(Instant t, const QString& what, const char* place, int years) {
    if (t > now + clockSlack)
        refuse("when", QStringLiteral("%1 lies in the future: %2").arg(what, local(t)), QStringLiteral("check the date"),
               QString::fromLatin1(place));
    else if (t < now - std::chrono::hours(24 * 366 * years))
        refuse("when", QStringLiteral("%1 is more than %2 years ago: %3").arg(what).arg(years).arg(local(t)),
               QStringLiteral("check the date"), QString::fromLatin1(place));
}

void Asking::knownPlace(const QString& place) {
    const auto& places = shop.catalogue().fleet.places;
    if (!place.isEmpty() && !places.isEmpty() && !shop.catalogue().place(place))
        refuse("unknown-id", QStringLiteral("There is no place %1").arg(place),
               QStringLiteral("choose a place from fleet.yaml, or add it there"), place);
}

void Asking::knownInstrument(const QString& id, const QString& use) {
    const Instrument* i = shop.catalogue().instrument(id);
    if (!i && !id.isEmpty() && !shop.catalogue().fleet.instruments.isEmpty())
        return refuse("unknown-id", QStringLiteral("There is no instrument %1").arg(id),
                      QStringLiteral("choose an instrument from fleet.yaml, or add it there"), id);
    if (i && i->due.isValid() && i->due < toZone(now, shop.catalogue().fleet.zone).date())
        warn("calibration-due",
             QStringLiteral("%1 was due for calibration on %2").arg(id, i->due.toString(Qt::ISODate)),
             QStringLiteral("take another instrument for %1").arg(use), id);
}

void Asking::runVolume(const RunVolume& run, const RunVolume& before) {
    notNegative(run.plain.mm3(), QStringLiteral("The plain run volume"), "plain");
    notNegative(run.abrasive.mm3(), QStringLiteral("The abrasive run volume"), "abrasive");
    if (run.known && before.known && (run.plain < before.plain || run.abrasive < before.abrasive))
        warn("use-lowered", QStringLiteral("This lowers the use that is on record"),
             QStringLiteral("check the figure"));
}

bool Asking::overrideHolds(const act::Override& o, const QString& what) {
    const auto& people = shop.catalogue().fleet.people;
    if (o.reason.trimmed().isEmpty()) {
        refuse("override-reason", QStringLiteral("%1 needs a reason").arg(what), QStringLiteral("say why"), o.rule);
        return false;
    }
    if (people.size() > 1 && (o.approver.trimmed().isEmpty() || o.approver == who)) {
        refuse("override-approver", QStringLiteral("%1 needs a second person").arg(what),
               QStringLiteral("somebody other than %1 approves it").arg(who), o.rule);
        return false;
    }
    if (!o.approver.isEmpty() && !people.isEmpty() && !shop.catalogue().person(o.approver)) {
        refuse("override-approver", QStringLiteral("%1 is not one of the shop's people").arg(o.approver),
               QStringLiteral("choose initials from fleet.yaml"), o.rule);
        return false;
    }
    return true;
}

QString positionWords(Role role) {
    return role == Role::Part ? QStringLiteral("part position") : QStringLiteral("support position");
}

// -- the program itself -------------------------------------------------------------------------------------------

void object(Asking& a, const act::CatalogueRead& x) {
    a.stated(x.hash, QStringLiteral("The catalogue's hash"), "hash");
}

void object(Asking& a, const act::ExampleStarted&) {
    if (a.shop.exampleOffset())
        a.refuse("example", QStringLiteral("The example has been started already"));
}

void object(Asking&, const act::ProgramStarted&) {
}
void object(Asking&, const act::ClockJumped&) {
}

} // namespace interlude
