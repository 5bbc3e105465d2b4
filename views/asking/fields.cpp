#include "views/asking/fields.h"

#include "views/words/words.h"

#include <QCoreApplication>
#include <QLineEdit>

namespace interlude::fields {

namespace {
struct Said {
    Q_DECLARE_TR_FUNCTIONS(Fields)
};
} // namespace

Outcome<QString> wantText(const QLineEdit* field, const QString& name) {
    const QString text = field->text().trimmed();
    if (text.isEmpty())
        return refusal(QStringLiteral("missing"), Said::tr("%1 is still to be filled in").arg(name), {}, name);
    return text;
}

Outcome<double> wantNumber(const QLineEdit* field, const QString& name, double least) {
    const auto text = wantText(field, name);
    if (!text) return tl::unexpected(text.error());
    const auto number = maybeNumber(field, name, least);
    if (!number) return tl::unexpected(number.error());
    return **number;
}

Outcome<std::optional<double>> maybeNumber(const QLineEdit* field, const QString& name, double least) {
    const QString text = field->text().trimmed();
    if (text.isEmpty()) return std::optional<double>();
    const auto read = words::readNumber(text);
    if (!read) {
        return refusal(QStringLiteral("number"), read.error().reason,
                       Said::tr("%1 is a plain number such as 640.5").arg(name), name);
    }
    const double value = *read;
    if (value < least) {
        return refusal(QStringLiteral("number"), Said::tr("%1 is too small").arg(text),
                       Said::tr("%1 is at least %2").arg(name).arg(least), name);
    }
    // What would overflow an integer of milligrams or the like is a slip of the scanner.
    if (value > 1e6) {
        return refusal(QStringLiteral("number"), Said::tr("%1 is too large").arg(text),
                       Said::tr("%1 is at most 1000000: was something scanned into this field?").arg(name), name);
    }
    return std::optional(value);
}

QString plainNumber(double value) {
    return words::number(value).replace(QChar(0x2212), QLatin1Char('-'));
}

QList<Choice> placeChoices(const Catalogue& catalogue) {
    QList<Choice> out;
    for (const Place& p : catalogue.fleet.places) out.append({p.name, p.id});
    return out;
}

QList<Choice> printerChoices(const Catalogue& catalogue) {
    QList<Choice> out;
    for (const Printer& p : catalogue.fleet.printers) out.append({p.name, p.id});
    return out;
}

} // namespace interlude::fields
