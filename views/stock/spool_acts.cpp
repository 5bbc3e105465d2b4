#include "views/stock/spool_acts.h"

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

using forms::ActDialog;
using Act = Outcome<Happening>;

ActDialog* begin(Bench& bench, const QString& title, const QString& verb, QWidget* parent) {
    return new ActDialog(bench, title, verb, parent);
}

QLineEdit* idField(ActDialog* dialog, const SpoolId& id) {
    QLineEdit* field = dialog->addText(Said::tr("Spool"), Said::tr("scan or type its id"), id);
    field->selectAll();
    return field;
}

ActDialog* finish(ActDialog* dialog, std::function<Act()> build) {
    dialog->setAct(std::move(build));
    dialog->open();
    return dialog;
}

/// Builds an act from the id alone when there is one.
template <typename Fill> std::function<Act()> withId(QLineEdit* id, Fill fill) {
    return [id, fill]() -> Act {
        const auto spool = forms::wantText(id, Said::tr("Spool"));
        if (!spool) return tl::unexpected(spool.error());
        return fill(*spool);
    };
}

QList<forms::Choice> materialChoices(const Catalogue& catalogue) {
    QList<forms::Choice> out;
    for (const Material& m : catalogue.materials)
        out.append({m.id, (m.role == Role::Part ? Said::tr("%1, part") : Said::tr("%1, support"))
                              .arg(materialName(catalogue, m.id))});
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
    ActDialog* d = begin(bench, Said::tr("Receive a spool"), Said::tr("Receive"), parent);
    QLineEdit* id = idField(d, {});
    QComboBox* material = d->addChoice(Said::tr("Material"), materialChoices(bench.catalogue()));
    QLineEdit* lot = d->addText(Said::tr("Lot"), Said::tr("scan or type"));
    QLineEdit* net = d->addNumber(Said::tr("Net weight (g)"), Said::tr("empty = unknown"));
    QLineEdit* tare = d->addNumber(Said::tr("Tare of the empty spool (g)"), Said::tr("empty = unknown"));
    QLineEdit* expires = d->addText(Said::tr("Expires"), Said::tr("2027-01-31, may be empty"));
    QComboBox* place = d->addChoice(Said::tr("Place"), forms::placeChoices(bench.catalogue()));
    QCheckBox* open = d->addCheck(Said::tr("Already open: not in a sealed or dry place"));
    return finish(d, withId(id, [=, &bench](const QString& spool) -> Act {
        Spool s;
        s.id = spool;
        s.material = material->currentData().toString();
        s.lot = lot->text().trimmed();
        const auto grams = forms::maybeNumber(net, Said::tr("Net weight"));
        if (!grams) return tl::unexpected(grams.error());
        const auto tareGrams = forms::maybeNumber(tare, Said::tr("Tare"));
        if (!tareGrams) return tl::unexpected(tareGrams.error());
        const auto until = maybeDay(expires, Said::tr("Expires"), bench.catalogue().fleet.zone);
        if (!until) return tl::unexpected(until.error());
        if (*grams) s.left = Mass::fromGrams(**grams);
        if (*tareGrams) s.tare = Mass::fromGrams(**tareGrams);
        s.expires = *until;
        s.place = place->currentData().toString();
        s.received = bench.now();
        if (open->isChecked()) s.opened = s.exposedFrom = bench.now();
        return Happening(act::SpoolReceived{s});
    }));
}

ActDialog* weigh(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = begin(bench, Said::tr("Weigh a spool"), Said::tr("Record the weight"), parent);
    QLineEdit* id = idField(d, spoolId);
    QLineEdit* gross = d->addNumber(Said::tr("Gross weight (g)"), Said::tr("spool and feedstock"));
    QLineEdit* tare = d->addNumber(Said::tr("Tare (g)"), Said::tr("empty = as known of this spool"));
    QLineEdit* se = d->addNumber(Said::tr("Uncertainty (± g)"));
    se->setText(QStringLiteral("2"));
    return finish(d, withId(id, [=](const QString& spool) -> Act {
        const auto grossGrams = forms::wantNumber(gross, Said::tr("Gross weight"));
        if (!grossGrams) return tl::unexpected(grossGrams.error());
        const auto tareGrams = forms::maybeNumber(tare, Said::tr("Tare"));
        if (!tareGrams) return tl::unexpected(tareGrams.error());
        const auto seGrams = forms::wantNumber(se, Said::tr("Uncertainty"));
        if (!seGrams) return tl::unexpected(seGrams.error());
        act::SpoolWeighed a{spool, Mass::fromGrams(*grossGrams), {}, Mass::fromGrams(*seGrams)};
        if (*tareGrams) a.tare = Mass::fromGrams(**tareGrams);
        return Happening(a);
    }));
}

ActDialog* dry(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = begin(bench, Said::tr("Enter a drying"), Said::tr("Record the drying"), parent);
    QLineEdit* id = idField(d, spoolId);
    QLineEdit* at = d->addNumber(Said::tr("Temperature (°C)"));
    const auto suggest = [&bench, at](const QString& spool) {
        const auto found = bench.shop().stock().spools.constFind(spool.trimmed());
        const Material* m =
            found == bench.shop().stock().spools.constEnd() ? nullptr : bench.catalogue().material(found->material);
        at->setPlaceholderText(m && m->drying && m->dryingTime
                                   ? Said::tr("%1 for %2 h").arg(m->drying->celsius()).arg(double(m->dryingTime->count()) / 60.0)
                                   : QString());
    };
    QObject::connect(id, &QLineEdit::textChanged, d, suggest);
    suggest(spoolId);
    QDateTimeEdit* from = d->addTime(Said::tr("From"), bench.now() - std::chrono::hours(4));
    QDateTimeEdit* to = d->addTime(Said::tr("To"), bench.now());
    return finish(d, withId(id, [=](const QString& spool) -> Act {
        const auto celsius = forms::wantNumber(at, Said::tr("Temperature"));
        if (!celsius) return tl::unexpected(celsius.error());
        if (*celsius > 400.0) {
            return refusal(QStringLiteral("number"), Said::tr("%1 °C is no drying temperature").arg(*celsius),
                           Said::tr("the data sheet of the material states it"), Said::tr("Temperature"));
        }
        return Happening(act::SpoolDried{spool, Temperature::fromCelsius(*celsius), d->timeOf(from), d->timeOf(to)});
    }));
}

ActDialog* move(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = begin(bench, Said::tr("Move a spool"), Said::tr("Record the move"), parent);
    QLineEdit* id = idField(d, spoolId);
    QComboBox* place = d->addChoice(Said::tr("To"), forms::placeChoices(bench.catalogue()));
    QCheckBox* exposed = d->addCheck(Said::tr("In the open there: not sealed, not in a dry place"));
    return finish(d, withId(id, [=](const QString& spool) -> Act {
        return Happening(act::SpoolMoved{spool, place->currentData().toString(), exposed->isChecked()});
    }));
}

ActDialog* load(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = begin(bench, Said::tr("Load a spool"), Said::tr("Record the loading"), parent);
    QLineEdit* id = idField(d, spoolId);
    QComboBox* printer = d->addChoice(Said::tr("Printer"), forms::printerChoices(bench.catalogue()));
    QComboBox* position = d->addChoice(
        Said::tr("Position"), {{QStringLiteral("part"), Said::tr("part")}, {QStringLiteral("support"), Said::tr("support")}});
    return finish(d, withId(id, [=](const QString& spool) -> Act {
        const Role role = position->currentData().toString() == QStringLiteral("part") ? Role::Part : Role::Support;
        return Happening(act::SpoolLoaded{spool, printer->currentData().toString(), role});
    }));
}

ActDialog* unload(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = begin(bench, Said::tr("Unload a spool"), Said::tr("Record the unloading"), parent);
    QLineEdit* id = idField(d, spoolId);
    QComboBox* place = d->addChoice(Said::tr("To"), forms::placeChoices(bench.catalogue()));
    return finish(d, withId(id, [=](const QString& spool) -> Act {
        return Happening(act::SpoolUnloaded{spool, place->currentData().toString()});
    }));
}

ActDialog* retire(Bench& bench, const SpoolId& spoolId, QWidget* parent) {
    ActDialog* d = begin(bench, Said::tr("Retire a spool"), Said::tr("Retire"), parent);
    QLineEdit* id = idField(d, spoolId);
    QLineEdit* why = d->addText(Said::tr("Why"), Said::tr("used up, expired, contaminated …"));
    return finish(d, withId(id, [=](const QString& spool) -> Act {
        const auto reason = forms::wantText(why, Said::tr("Why"));
        if (!reason) return tl::unexpected(reason.error());
        return Happening(act::SpoolRetired{spool, *reason});
    }));
}

} // namespace interlude::spool_acts
