#include "model/catalogue/values.h"

#include "model/catalogue/did_you_mean.h"

#include <QRegularExpression>

#include <cmath>

namespace interlude {

namespace range {
Range celsius() { return {-50, 600, QStringLiteral("°C")}; }
Range minutes() { return {0, 100'000, QStringLiteral("minutes")}; }
Range someMinutes() { return {0, 100'000, QStringLiteral("minutes"), true}; }
Range money() { return {0, 1e9, {}}; }
Range cm3() { return {0, 1e6, QStringLiteral("cm³")}; }
Range someCm3() { return {0, 1e6, QStringLiteral("cm³"), true}; }
} // namespace range

namespace {

QString shown(const QString& text) {
    QString out = text.left(40).replace(QLatin1Char('\n'), QLatin1Char(' '));
    return text.size() > 40 ? out + QStringLiteral("…") : out;
}

QString plain(double v) {
    return QString::number(v, 'f', 6).remove(QRegularExpression(QStringLiteral("\\.?0+$")));
}

/// 0.01 stays 0.01 and 100 stays 100.
QString bound(double v) { return v == std::floor(v) ? QString::number(v, 'f', 0) : plain(v); }

QString inWords(const Range& range) {
    const QString unit = range.unit.isEmpty() ? QString() : QLatin1Char(' ') + range.unit;
    return range.aboveMin ? QStringLiteral("more than %1 and at most %2%3").arg(bound(range.min), bound(range.max), unit)
                          : QStringLiteral("%1 to %2%3").arg(bound(range.min), bound(range.max), unit);
}

bool inside(double v, const Range& range) {
    return std::isfinite(v) && v <= range.max && (range.aboveMin ? v > range.min : v >= range.min);
}

QString isText(const QString& name, const QString& value) {
    return QStringLiteral("`%1` is `%2`").arg(name, shown(value));
}

const QRegularExpression& wholePattern() {
    static const QRegularExpression p(QStringLiteral("^[+-]?[0-9]{1,18}$"));
    return p;
}
const QRegularExpression& numberPattern() {
    static const QRegularExpression p(QStringLiteral("^[+-]?([0-9]+(\\.[0-9]*)?|\\.[0-9]+)([eE][+-]?[0-9]{1,6})?$"));
    return p;
}

} // namespace

std::optional<QString> scalarOf(Reading& r, const YamlNode& n, const QString& name) {
    switch (n.kind) {
    case YamlNode::Kind::Scalar: return n.text.trimmed();
    case YamlNode::Kind::Broken: return {};
    case YamlNode::Kind::Null:
        r.complain(n.where, QStringLiteral("`%1` has no value").arg(name), QStringLiteral("give one, or leave the key out"));
        return {};
    case YamlNode::Kind::Sequence:
        r.complain(n.where, QStringLiteral("`%1` is a list").arg(name), QStringLiteral("a single value is wanted"));
        return {};
    case YamlNode::Kind::Map:
        r.complain(n.where, QStringLiteral("`%1` is a map").arg(name), QStringLiteral("a single value is wanted"));
        return {};
    }
    return {};
}

std::optional<QString> textOfValue(Reading& r, const YamlNode& n, const QString& name, int longest) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    if (text->isEmpty()) {
        r.complain(n.where, QStringLiteral("`%1` is empty").arg(name), QStringLiteral("give a text, or leave the key out"));
        return {};
    }
    if (longest <= 200 && text->contains(QLatin1Char('\n'))) {
        r.complain(n.where, QStringLiteral("`%1` has more than one line").arg(name), QStringLiteral("write it on one"));
        return {};
    }
    if (text->size() > longest) {
        r.complain(n.where, QStringLiteral("`%1` has %2 characters").arg(name).arg(text->size()),
                   QStringLiteral("at most %1").arg(longest));
        return {};
    }
    return text;
}

std::optional<QString> idOf(Reading& r, const YamlNode& n, const QString& name) {
    static const QRegularExpression good(QStringLiteral("^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$"));
    const auto text = textOfValue(r, n, name, 200);
    if (!text) return {};
    if (!good.match(*text).hasMatch()) {
        r.complain(n.where, QStringLiteral("%1, which a scanner cannot carry").arg(isText(name, *text)),
                   QStringLiteral("use letters a to z, digits, `-`, `_` and `.`, beginning with a letter or digit, at most 64"));
        return {};
    }
    return text;
}

std::optional<double> numberOf(Reading& r, const YamlNode& n, const QString& name, const Range& range) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    if (!numberPattern().match(*text).hasMatch()) {
        const bool comma = text->contains(QLatin1Char(',')) && numberPattern().match(QString(*text).replace(u',', u'.')).hasMatch();
        r.complain(n.where, QStringLiteral("%1, which is not a number").arg(isText(name, *text)),
                   comma ? QStringLiteral("use a point for the decimals") : QStringLiteral("give %1").arg(inWords(range)));
        return {};
    }
    const double value = text->toDouble();
    if (!inside(value, range)) {
        r.complain(n.where, isText(name, *text), QStringLiteral("give %1").arg(inWords(range)));
        return {};
    }
    return value;
}

std::optional<int> wholeOf(Reading& r, const YamlNode& n, const QString& name, const Range& range) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    if (!wholePattern().match(*text).hasMatch() || !inside(text->toDouble(), range)) {
        r.complain(n.where, isText(name, *text), QStringLiteral("give a whole number, %1").arg(inWords(range)));
        return {};
    }
    return text->toInt();
}

std::optional<bool> yesNoOf(Reading& r, const YamlNode& n, const QString& name) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    if (*text == QStringLiteral("true") || *text == QStringLiteral("yes")) return true;
    if (*text == QStringLiteral("false") || *text == QStringLiteral("no")) return false;
    r.complain(n.where, isText(name, *text), QStringLiteral("give true or false"));
    return {};
}

std::optional<QDate> dateOf(Reading& r, const YamlNode& n, const QString& name) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    const QDate date = QDate::fromString(*text, QStringLiteral("yyyy-MM-dd"));
    if (date.isValid() && date.year() >= 1970 && date.year() <= 2200) return date;
    r.complain(n.where, QStringLiteral("%1, which is not a date").arg(isText(name, *text)),
               QStringLiteral("write it as 2026-03-02"));
    return {};
}

std::optional<QTime> clockTimeOf(Reading& r, const YamlNode& n, const QString& name, bool endOfDay) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    if (endOfDay && *text == QStringLiteral("24:00")) return QTime(0, 0);
    const QTime time = QTime::fromString(*text, QStringLiteral("HH:mm"));
    if (time.isValid()) return time;
    r.complain(n.where, QStringLiteral("%1, which is not a time of day").arg(isText(name, *text)),
               QStringLiteral("write it as 06:30"));
    return {};
}

std::optional<Instant> momentInZone(const QDate& date, const QTime& time, const QTimeZone& zone) {
    // Asked of UTC candidates instead of QDateTime's own guess, whose treatment of gaps differs between Qt versions.
    const QDateTime asUtc(date, time, Qt::UTC);
    std::optional<Instant> first;
    for (const int hours : {-26, 0, 26}) {
        const int offset = zone.offsetFromUtc(asUtc.addSecs(hours * 3600));
        const QDateTime candidate = asUtc.addSecs(-offset);
        if (zone.offsetFromUtc(candidate) != offset) continue;
        const Instant t = instantOf(candidate);
        if (!first || t < *first) first = t;
    }
    return first;
}

std::optional<Instant> localTimeOf(Reading& r, const YamlNode& n, const QString& name, bool dayAlone) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    static const QRegularExpression form(
        QStringLiteral("^([0-9]{4}-[0-9]{2}-[0-9]{2})(?:T((?:[01][0-9]|2[0-3]):[0-5][0-9](?::[0-5][0-9])?))?$"));
    const auto match = form.match(*text);
    const QDate date = QDate::fromString(match.captured(1), Qt::ISODate);
    const bool alone = match.hasMatch() && match.captured(2).isEmpty();
    const QTime time = alone ? QTime(0, 0) : QTime::fromString(match.captured(2), Qt::ISODate);
    if (!date.isValid() || !time.isValid() || date.year() < 1970 || date.year() > 2200 || (alone && !dayAlone)) {
        r.complain(n.where, QStringLiteral("%1, which is not a local time").arg(isText(name, *text)),
                   dayAlone ? QStringLiteral("write it as 2026-03-02T06:30 or 2026-03-02")
                            : QStringLiteral("write it as 2026-03-02T06:30, in the time zone of the fleet"));
        return {};
    }
    if (alone) return instantOf(date.startOfDay(r.zone));
    const auto moment = momentInZone(date, time, r.zone);
    if (!moment)
        r.complain(n.where, QStringLiteral("%1, a time that the clocks of %2 jump over").arg(isText(name, *text), QString::fromUtf8(r.zone.id())),
                   QStringLiteral("give a time before or after the change to summer time"));
    return moment;
}

std::optional<int> choiceOf(Reading& r, const YamlNode& n, const QString& name, const QStringList& words) {
    const auto text = scalarOf(r, n, name);
    if (!text) return {};
    const auto found = words.indexOf(*text);
    if (found >= 0) return static_cast<int>(found);
    const auto near = didYouMean(*text, words);
    r.complain(n.where, isText(name, *text),
               near ? QStringLiteral("did you mean `%1`?").arg(*near)
                    : QStringLiteral("one of %1 is wanted").arg(words.join(QStringLiteral(", "))));
    return {};
}

} // namespace interlude
