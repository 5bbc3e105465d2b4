#include "model/catalogue/did_you_mean.h"
#include "model/catalogue/readers.h"

#include <QRegularExpression>

#include <algorithm>

namespace interlude {

namespace {

/// Places, tools, consumables and instruments: things with an id, a name and (but for places) a place.
template <typename Thing, typename Rest>
void readThings(Fields& fleet, const QString& key, const QString& what, Kind kind, QList<Thing>& out, Rest rest) {
    for (const YamlNode* node : fleet.list(key)) {
        Fields f(fleet.reading(), *node, what);
        Thing thing;
        const bool named = f.defines(kind, QStringLiteral("id"), thing.id);
        thing.name = thing.id;
        f.text(QStringLiteral("name"), thing.name);
        rest(f, thing);
        if (named) out.append(thing);
    }
}

void readPeople(Fields& fleet, Fleet& out) {
    static const QStringList roles{QStringLiteral("technician"), QStringLiteral("planner"), QStringLiteral("quality"),
                                   QStringLiteral("safety")};
    for (const YamlNode* node : fleet.list(QStringLiteral("people"))) {
        Fields f(fleet.reading(), *node, QStringLiteral("a person"));
        Person person;
        // Initials are signed with, not scanned: letters of any alphabet.
        if (f.text(QStringLiteral("initials"), person.initials, Need::Required, 8))
            f.reading().define(Kind::Person, person.initials, f.where(QStringLiteral("initials")), node);
        person.name = person.initials;
        f.text(QStringLiteral("name"), person.name);
        for (const YamlNode* role : f.list(QStringLiteral("roles")))
            if (const auto found = choiceOf(f.reading(), *role, QStringLiteral("roles"), roles))
                person.roles.append(roles[*found]);
        if (!person.initials.isEmpty()) out.people.append(person);
    }
}

void readStock(Fields& fleet, Fleet& out) {
    const auto place = [](Fields& f, QString& into) { f.refersTo(Kind::Place, QStringLiteral("place"), into); };
    readThings(fleet, QStringLiteral("places"), QStringLiteral("a place"), Kind::Place, out.places,
               [](Fields& f, Place& p) { f.yesNo(QStringLiteral("dry"), p.dry); });
    readThings(fleet, QStringLiteral("tools"), QStringLiteral("a tool"), Kind::Tool, out.tools, [&](Fields& f, Tool& t) {
        place(f, t.place);
        f.whole(QStringLiteral("quantity"), t.quantity, {1, 1000, {}});
    });
    readThings(fleet, QStringLiteral("consumables"), QStringLiteral("a consumable"), Kind::Consumable, out.consumables,
               [&](Fields& f, Consumable& c) { place(f, c.place); });
    readThings(fleet, QStringLiteral("instruments"), QStringLiteral("an instrument"), Kind::Instrument, out.instruments,
               [&](Fields& f, Instrument& i) {
                   place(f, i.place);
                   f.date(QStringLiteral("calibrated"), i.calibrated);
                   f.date(QStringLiteral("due"), i.due);
                   if (i.calibrated.isValid() && i.due.isValid() && i.due <= i.calibrated)
                       f.complain(QStringLiteral("due"), QStringLiteral("`due` is not after `calibrated`"),
                                  QStringLiteral("give the day on which the next calibration falls due"));
               });
}

/// By its town, in the area that was named: a guess that only looks alike as a whole (`Europe/Riga` for `Europe/Wien`)
/// would be worse than none.
std::optional<QString> nearZone(const QString& id, const QStringList& all) {
    if (all.contains(id, Qt::CaseInsensitive)) return *std::find_if(all.begin(), all.end(), [&](const QString& z) { return z.compare(id, Qt::CaseInsensitive) == 0; });
    const auto townOf = [](const QString& zone) { return zone.section(QLatin1Char('/'), -1); };
    const QString town = townOf(id).replace(QLatin1Char(' '), QLatin1Char('_'));
    const QStringList inArea = all.filter(QRegularExpression(QLatin1Char('^') + QRegularExpression::escape(id.section(QLatin1Char('/'), 0, 0)) + QLatin1Char('/'),
                                                       QRegularExpression::CaseInsensitiveOption));
    const QStringList& zones = inArea.isEmpty() ? all : inArea;
    QStringList towns;
    for (const QString& zone : zones) towns.append(townOf(zone));
    const auto near = towns.contains(town) ? std::optional(town) : didYouMean(town, towns);
    return near ? std::optional(zones[towns.indexOf(*near)]) : std::nullopt;
}

void readZone(Fields& f, Fleet& out) {
    QString id;
    if (!f.text(QStringLiteral("time-zone"), id, Need::Required)) return;
    // Offsets such as UTC+02:00 are known to Qt but are not IANA names: they would miss summer time.
    if (!id.startsWith(QStringLiteral("UTC+")) && !id.startsWith(QStringLiteral("UTC-")) &&
        QTimeZone::isTimeZoneIdAvailable(id.toUtf8())) {
        out.zone = QTimeZone(id.toUtf8());
        f.reading().zone = out.zone;
        return;
    }
    QStringList all;
    for (const QByteArray& zone : QTimeZone::availableTimeZoneIds())
        if (!zone.startsWith("UTC+") && !zone.startsWith("UTC-")) all.append(QString::fromUtf8(zone));
    const auto near = id.contains(QLatin1Char(':')) ? std::nullopt : nearZone(id, all);
    f.complain(QStringLiteral("time-zone"), QStringLiteral("`%1` is not a time zone of the IANA list").arg(id.left(40)),
               near ? QStringLiteral("did you mean `%1`?").arg(*near)
                    : QStringLiteral("write for instance Europe/Vienna or UTC"));
}

void readCrew(Fields& f, Fleet& out) {
    QString crew;
    const bool given = f.take(QStringLiteral("crew")) != nullptr;
    if (given && f.text(QStringLiteral("crew"), crew) && crew != QStringLiteral("unlimited"))
        f.complain(QStringLiteral("crew"), QStringLiteral("`crew` is `%1`").arg(crew.left(40)),
                   QStringLiteral("write `unlimited`, or list `shifts` with their crew instead"));
    if (given && f.has(QStringLiteral("shifts")))
        f.complain(QStringLiteral("crew"), QStringLiteral("both `crew` and `shifts` are given"), QStringLiteral("keep one of them"));
    if (!f.has(QStringLiteral("crew")) && !f.has(QStringLiteral("shifts")) && f.isMap())
        f.reading().complain(f.node().where, QStringLiteral("neither `crew` nor `shifts` is given"),
                             QStringLiteral("list `shifts` with their crew, or write `crew: unlimited`"));
    readShifts(f, out);
    out.crewUnlimited = !f.has(QStringLiteral("shifts"));
    for (const YamlNode* day : f.list(QStringLiteral("closed"))) {
        const auto date = dateOf(f.reading(), *day, QStringLiteral("closed"));
        if (!date) continue;
        if (out.closed.contains(*date))
            f.reading().complain(day->where, QStringLiteral("%1 is there twice").arg(date->toString(Qt::ISODate)),
                                 QStringLiteral("name it once"));
        else
            out.closed.append(*date);
    }
}

void readLedgerPlace(Fields& f, Fleet& out) {
    if (!f.text(QStringLiteral("ledger"), out.ledger, Need::Optional, 1000)) return;
    const bool known = (out.ledger.startsWith(QStringLiteral("sqlite:")) && out.ledger.size() > 7) ||
                       out.ledger.startsWith(QStringLiteral("postgresql://"));
    if (!known)
        f.complain(QStringLiteral("ledger"), QStringLiteral("`ledger` is `%1`").arg(out.ledger.left(40)),
                   QStringLiteral("write sqlite:PATH or postgresql://…, or leave it out"));
}

void readRules(Fields& f, Fleet& out) {
    f.celsius(QStringLiteral("room-c"), out.room);
    f.celsius(QStringLiteral("gloved-work-max-c"), out.glovedWorkMax);
    f.choice<CleanOutRule>(QStringLiteral("clean-out-rule"), out.cleanOutRule,
                           {{QStringLiteral("going-up"), CleanOutRule::GoingUp}, {QStringLiteral("strict"), CleanOutRule::Strict}});
    f.number(QStringLiteral("clean-out-margin-k"), out.cleanOutMarginK, {0, 100, QStringLiteral("K")});
    f.money(QStringLiteral("clean-out-consumables"), out.cleanOutConsumables);
    f.whole(QStringLiteral("long-idle-days"), out.longIdleDays, {1, 3650, QStringLiteral("days")});
    const Range fraction{0, 0.5, {}, true};
    f.number(QStringLiteral("residual-same-polymer"), out.residualSamePolymer, fraction);
    f.number(QStringLiteral("residual-new-polymer"), out.residualNewPolymer, fraction);
}

} // namespace

void readShifts(Fields& fleet, Fleet& out) {
    static const QStringList days{QStringLiteral("mon"), QStringLiteral("tue"), QStringLiteral("wed"), QStringLiteral("thu"),
                                  QStringLiteral("fri"), QStringLiteral("sat"), QStringLiteral("sun")};
    for (const YamlNode* node : fleet.list(QStringLiteral("shifts"), Need::Optional, Empty::Refused)) {
        Fields f(fleet.reading(), *node, QStringLiteral("a shift"));
        Shift shift;
        f.text(QStringLiteral("name"), shift.name);
        for (const YamlNode* day : f.list(QStringLiteral("days"), Need::Required, Empty::Refused)) {
            const auto found = choiceOf(f.reading(), *day, QStringLiteral("days"), days);
            if (!found) continue;
            if (shift.days.contains(*found + 1))
                f.reading().complain(day->where, QStringLiteral("`%1` is there twice").arg(days[*found]), QStringLiteral("name it once"));
            else
                shift.days.append(*found + 1);
        }
        if (const YamlNode* n = f.take(QStringLiteral("from"), Need::Required))
            shift.from = clockTimeOf(f.reading(), *n, QStringLiteral("from")).value_or(QTime());
        if (const YamlNode* n = f.take(QStringLiteral("to"), Need::Required))
            shift.to = clockTimeOf(f.reading(), *n, QStringLiteral("to"), true).value_or(QTime());
        f.whole(QStringLiteral("crew"), shift.crew, {1, 1000, QStringLiteral("people")}, Need::Required);
        out.shifts.append(shift);
    }
}

void readFleet(Reading& r, const YamlNode& root, Catalogue& out) {
    Fields f(r, root, QStringLiteral("the fleet"));
    Fleet& fleet = out.fleet;
    int format = 1;
    if (f.whole(QStringLiteral("format"), format, {0, 1e9, {}}, Need::Required) && format != 1)
        f.complain(QStringLiteral("format"), QStringLiteral("`format` is %1").arg(format),
                   QStringLiteral("this program reads format 1"));
    if (const YamlNode* id = f.take(QStringLiteral("id"), Need::Required))
        fleet.id = idOf(r, *id, QStringLiteral("id")).value_or(QString());
    f.text(QStringLiteral("name"), fleet.name, Need::Required);
    readZone(f, fleet);
    if (f.text(QStringLiteral("currency"), fleet.currency, Need::Optional, 12) &&
        (fleet.currency.size() != 3 || fleet.currency.toUpper() != fleet.currency || !fleet.currency[0].isLetter()))
        f.complain(QStringLiteral("currency"), QStringLiteral("`currency` is `%1`").arg(fleet.currency),
                   QStringLiteral("write its three letters, for instance EUR"));
    std::optional<Instant> example;
    if (f.localTime(QStringLiteral("example-clock"), example)) fleet.exampleClock = toZone(*example, fleet.zone);
    readLedgerPlace(f, fleet);
    f.whole(QStringLiteral("backup-keep"), fleet.backupKeep, {0, 1000, {}});
    f.text(QStringLiteral("backup-folder"), fleet.backupFolder, Need::Optional, 1000);
    readRules(f, fleet);
    readCrew(f, fleet);
    readPeople(f, fleet);
    readStock(f, fleet);
    readPrinterTypes(f, fleet);
    readPrinters(f, fleet);
}

} // namespace interlude
