#include "views/stock/spool_acts.h"

#include "views/asking/fields.h"
#include "views/stock/spool_rows.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCoreApplication>
#include <QDateTimeEdit>
#include <QLineEdit>

namespace interlude::spool_acts {

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(SpoolActs)
};

using Act = Outcome<Happening>;

ActDialog* spoolDialog(Bench& bench, const SpoolId& id, const QString& title, const QString& verb, QWidget* parent) {
    return new ActDialog(bench, {Said::tr("Spool"), Said::tr("scan or type its id")}, id, title, verb, parent);
}

QList<Choice> materialChoices(const Catalogue& catalogue) {
    QList<Choice> out;
    for (const Material& m : catalogue.materials)
        out.append({(m.role == Role::Part ? Said::tr("%1, part") : Said::tr("%1, support"))
                        .arg(materialName(catalogue, m.id)),
                    m.id});
    return out;
}

Outcome<std::optional<Instant>> maybeDay(const QLineEdit* field, const QString& name, const QTimeZone& zone) {
    const QString text = field->text().trimmed();
    if (text.isEmpty()) return std::optional<Instant>();
    const QDate day = QDate::fromString(text, Qt::ISODate);
    if (!day.isValid())
        return refusal(QStringLiteral("date"), Said::tr("“%1” is no date").arg(text), Said::tr("write it as 2027-01-31"), name);
    return std::optional(instantOf(QDateTime(day, QTime(0, 0), zone)));
}

} // namespace

ActDialog* receive(Bench& bench, QWidget* parent) {
    ActDialog* d = spoolDialog(bench, {}, Said::tr("Receive a spool"), Said::tr("Receive"), parent);
    QComboBox* material = d->addChoice(QStringLiteral("spoolMaterial"), Said::tr("Material"), materialChoices(bench.catalogue()));
    QLineEdit* lot = d->addLine(QStringLiteral("spoolLot"), Said::tr("Lot"), {}, Said::tr("scan or type"));
    QLineEdit* net = d->addLine(QStringLiteral("spoolNet"), Said::tr("Net weight (g)"), {}, Said::tr("empty = unknown"));
    QLineEdit* se = d->addLine(QStringLiteral("spoolUncertainty"), Said::tr("Uncertainty (± g)"), {}, Said::tr("empty = not stated"));
    QLineEdit* tare = d->addLine(QStringLiteral("spoolTare"), Said::tr("Tare of the empty spool (g)"), {}, Said::tr("empty = unknown"));
    QLineEdit* expires = d->addLine(QStringLiteral("spoolExpires"), Said::tr("Expires"), {}, Said::tr("2027-01-31, may be empty"));
    QComboBox* place = d->addChoice(QStringLiteral("spoolPlace"), Said::tr("Place"), fields::placeChoices(bench.catalogue()));
    QCheckBox* open = d->addCheck(QStringLiteral("spoolOpen"), Said::tr("Already open: not in a sealed or dry place"), false);
    d->begin([=, &bench](const QString& spool) -> Act {
        Spool s;
        s.id = spool;
        s.material = material->currentData().toString();
        s.lot = lot->text().trimmed();
        const auto grams = fields::maybeNumber(net, Said::tr("Net weight"));
        if (!grams) return tl::unexpected(grams.error());
        const auto seGrams = fields::maybeNumber(se, Said::tr("Uncertainty"));
        if (!seGrams) return tl::unexpected(seGrams.error());
        if (*seGrams && !*grams)
            return refusal(QStringLiteral("number"), Said::tr("An uncertainty without a net weight"), Said::tr("give both, or neither"),
                           Said::tr("Uncertainty"));
        const auto tareGrams = fields::maybeNumber(tare, Said::tr("Tare"));
        if (!tareGrams) return tl::unexpected(tareGrams.error());
        const auto until = maybeDay(expires, Said::tr("Expires"), bench.catalogue().fleet.zone);
        if (!until) return tl::unexpected(until.error());
        if (*grams) s.left = Mass::fromGrams(**grams);
        if (*seGrams) s.leftSe = Mass::fromGrams(**seGrams);
        if (*tareGrams) s.tare = Mass::fromGrams(**tareGrams);
        s.expires = *until;
        s.place = place->currentData().toString();
        s.received = bench.now();
        if (open->isChecked()) s.opened = s.exposedFrom = bench.now();
        return Happening(act::SpoolReceived{s});
    });
    return d;
}

ActDialog* weigh(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = spoolDialog(bench, spoolId, Said::tr("Weigh a spool"), Said::tr("Record the weight"), parent);
    QLineEdit* gross = d->addLine(QStringLiteral("weighGross"), Said::tr("Gross weight (g)"), {}, Said::tr("spool and feedstock"));
    QLineEdit* tare = d->addLine(QStringLiteral("weighTare"), Said::tr("Tare (g)"), {}, Said::tr("empty = as known of this spool"));
    QLineEdit* se = d->addLine(QStringLiteral("weighUncertainty"), Said::tr("Uncertainty (± g)"), QStringLiteral("2"));
    d->begin([=](const QString& spool) -> Act {
        const auto grossGrams = fields::wantNumber(gross, Said::tr("Gross weight"));
        if (!grossGrams) return tl::unexpected(grossGrams.error());
        const auto tareGrams = fields::maybeNumber(tare, Said::tr("Tare"));
        if (!tareGrams) return tl::unexpected(tareGrams.error());
        const auto seGrams = fields::wantNumber(se, Said::tr("Uncertainty"));
        if (!seGrams) return tl::unexpected(seGrams.error());
        act::SpoolWeighed a{spool, Mass::fromGrams(*grossGrams), {}, Mass::fromGrams(*seGrams)};
        if (*tareGrams) a.tare = Mass::fromGrams(**tareGrams);
        return Happening(a);
    });
    return d;
}

ActDialog* dry(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = spoolDialog(bench, spoolId, Said::tr("Enter a drying"), Said::tr("Record the drying"), parent);
    QLineEdit* at = d->addLine(QStringLiteral("dryAt"), Said::tr("Temperature (°C)"));
    const auto suggest = [&bench, at](const QString& spool) {
        const auto found = bench.shop().stock().spools.constFind(spool.trimmed());
        const Material* m =
            found == bench.shop().stock().spools.constEnd() ? nullptr : bench.catalogue().material(found->material);
        at->setPlaceholderText(m && m->drying && m->dryingTime
                                   ? Said::tr("%1 for %2 h").arg(m->drying->celsius()).arg(double(m->dryingTime->count()) / 60.0)
                                   : QString());
    };
    QObject::connect(d->idField(), &QLineEdit::textChanged, d, suggest);
    suggest(spoolId);
    const QTimeZone zone = bench.catalogue().fleet.zone;
    QDateTimeEdit* from = d->addTime(QStringLiteral("dryFrom"), Said::tr("From"), bench.now() - std::chrono::hours(4), zone);
    QDateTimeEdit* to = d->addTime(QStringLiteral("dryTo"), Said::tr("To"), bench.now(), zone);
    d->begin([=](const QString& spool) -> Act {
        const auto celsius = fields::wantNumber(at, Said::tr("Temperature"));
        if (!celsius) return tl::unexpected(celsius.error());
        if (*celsius > 400.0) {
            return refusal(QStringLiteral("number"), Said::tr("%1 °C is no drying temperature").arg(*celsius),
                           Said::tr("the data sheet of the material states it"), Said::tr("Temperature"));
        }
        return Happening(act::SpoolDried{spool, Temperature::fromCelsius(*celsius), zoned(*from, zone), zoned(*to, zone)});
    });
    return d;
}

ActDialog* move(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = spoolDialog(bench, spoolId, Said::tr("Move a spool"), Said::tr("Record the move"), parent);
    QComboBox* place = d->addChoice(QStringLiteral("moveTo"), Said::tr("To"), fields::placeChoices(bench.catalogue()));
    QCheckBox* exposed = d->addCheck(QStringLiteral("moveExposed"), Said::tr("In the open there: not sealed, not in a dry place"), false);
    d->begin([=](const QString& spool) -> Act {
        return Happening(act::SpoolMoved{spool, place->currentData().toString(), exposed->isChecked()});
    });
    return d;
}

ActDialog* load(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = spoolDialog(bench, spoolId, Said::tr("Load a spool"), Said::tr("Record the loading"), parent);
    QComboBox* printer = d->addChoice(QStringLiteral("loadPrinter"), Said::tr("Printer"), fields::printerChoices(bench.catalogue()));
    QComboBox* position = d->addChoice(QStringLiteral("loadPosition"), Said::tr("Position"), {{Said::tr("part"), QStringLiteral("part")}, {Said::tr("support"), QStringLiteral("support")}});
    d->begin([=](const QString& spool) -> Act {
        const Role role = position->currentData().toString() == QStringLiteral("part") ? Role::Part : Role::Support;
        return Happening(act::SpoolLoaded{spool, printer->currentData().toString(), role});
    });
    return d;
}

ActDialog* unload(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = spoolDialog(bench, spoolId, Said::tr("Unload a spool"), Said::tr("Record the unloading"), parent);
    QComboBox* place = d->addChoice(QStringLiteral("moveTo"), Said::tr("To"), fields::placeChoices(bench.catalogue()));
    d->begin([=](const QString& spool) -> Act {
        return Happening(act::SpoolUnloaded{spool, place->currentData().toString()});
    });
    return d;
}

ActDialog* retire(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = spoolDialog(bench, spoolId, Said::tr("Retire a spool"), Said::tr("Retire"), parent);
    QLineEdit* why = d->addLine(QStringLiteral("retireWhy"), Said::tr("Why"), {}, Said::tr("used up, expired, contaminated …"));
    d->begin([=](const QString& spool) -> Act {
        const auto reason = fields::wantText(why, Said::tr("Why"));
        if (!reason) return tl::unexpected(reason.error());
        return Happening(act::SpoolRetired{spool, *reason});
    });
    return d;
}

} // namespace interlude::spool_acts
