#include "views/nozzles/nozzle_acts.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCoreApplication>
#include <QLineEdit>

namespace interlude::nozzle_acts {

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(NozzleActs)
};

using forms::ActDialog;
using Act = Outcome<Happening>;

QLineEdit* serialField(ActDialog* dialog, const NozzleSerial& serial) {
    QLineEdit* field = dialog->addText(Said::tr("Serial"), Said::tr("scan or type it"), serial);
    field->selectAll();
    return field;
}

ActDialog* finish(ActDialog* dialog, std::function<Act()> build) {
    dialog->setAct(std::move(build));
    dialog->open();
    return dialog;
}

template <typename Fill> std::function<Act()> withSerial(QLineEdit* serial, Fill fill) {
    return [serial, fill]() -> Act {
        const auto text = forms::wantText(serial, Said::tr("Serial"));
        if (!text) return tl::unexpected(text.error());
        return fill(*text);
    };
}

/// The three fields that say how much went through: two numbers, or no history.
struct UseFields {
    QLineEdit* plain;
    QLineEdit* abrasive;
    QCheckBox* none;

    explicit UseFields(ActDialog* d, const RunVolume& run)
        : plain(d->addNumber(Said::tr("Use so far, plain (cm³)"))),
          abrasive(d->addNumber(Said::tr("Use so far, abrasive (cm³)"))),
          none(d->addCheck(Said::tr("No history: nobody knows how much went through it"), !run.known)) {
        plain->setText(QString::number(run.plain.cm3()));
        abrasive->setText(QString::number(run.abrasive.cm3()));
        const auto follow = [p = plain, a = abrasive](bool unknown) {
            p->setEnabled(!unknown);
            a->setEnabled(!unknown);
        };
        QObject::connect(none, &QCheckBox::toggled, d, follow);
        follow(!run.known);
    }

    Outcome<RunVolume> read() const {
        if (none->isChecked()) return RunVolume{false, {}, {}};
        const auto p = forms::wantNumber(plain, Said::tr("Use so far, plain"));
        if (!p) return tl::unexpected(p.error());
        const auto a = forms::wantNumber(abrasive, Said::tr("Use so far, abrasive"));
        if (!a) return tl::unexpected(a.error());
        return RunVolume{true, Volume::fromCm3(*p), Volume::fromCm3(*a)};
    }
};

QList<forms::Choice> typeChoices(const Catalogue& catalogue) {
    QList<forms::Choice> out;
    for (const NozzleType& t : catalogue.nozzleTypes)
        out.append({t.id, Said::tr("%1 (%2 mm)").arg(t.name.isEmpty() ? t.id : t.name).arg(t.orifice.mm())});
    return out;
}

/// Melt families of the catalogue's materials, "none yet" first.
QList<forms::Choice> familyChoices(const Catalogue& catalogue) {
    QList<forms::Choice> out{{QString(), Said::tr("none yet: never used")}};
    QStringList seen;
    for (const Material& m : catalogue.materials)
        if (!seen.contains(m.meltFamily)) seen.append(m.meltFamily);
    seen.sort();
    for (const QString& family : seen) out.append({family, family});
    return out;
}

QList<forms::Choice> instrumentChoices(const Catalogue& catalogue) {
    QList<forms::Choice> out;
    for (const Instrument& i : catalogue.fleet.instruments) out.append({i.id, i.name.isEmpty() ? i.id : i.name});
    return out;
}

} // namespace

ActDialog* receive(Bench& bench, QWidget* parent) {
    auto* d = new ActDialog(bench, Said::tr("Receive a nozzle"), Said::tr("Receive"), parent);
    QLineEdit* serial = serialField(d, {});
    QComboBox* type = d->addChoice(Said::tr("Type"), typeChoices(bench.catalogue()));
    QComboBox* place = d->addChoice(Said::tr("Place"), forms::placeChoices(bench.catalogue()));
    QComboBox* family = d->addChoice(Said::tr("Melt family"), familyChoices(bench.catalogue()));
    const UseFields use(d, RunVolume{});
    return finish(d, withSerial(serial, [=](const QString& text) -> Act {
        const auto run = use.read();
        if (!run) return tl::unexpected(run.error());
        Nozzle n;
        n.serial = text;
        n.type = type->currentData().toString();
        n.place = place->currentData().toString();
        n.meltFamily = family->currentData().toString();
        n.run = *run;
        return Happening(act::NozzleReceived{n});
    }));
}

ActDialog* stateUse(Bench& bench, const NozzleSerial& chosen, QWidget* parent) {
    auto* d = new ActDialog(bench, Said::tr("State the use so far of a nozzle"), Said::tr("Record the use"), parent);
    QLineEdit* serial = serialField(d, chosen);
    const UseFields use(d, bench.shop().stock().nozzles.value(chosen).run);
    return finish(d, withSerial(serial, [=](const QString& text) -> Act {
        const auto run = use.read();
        if (!run) return tl::unexpected(run.error());
        return Happening(act::NozzleUseStated{text, *run});
    }));
}

ActDialog* measure(Bench& bench, const NozzleSerial& chosen, QWidget* parent) {
    auto* d = new ActDialog(bench, Said::tr("Enter a measurement of a nozzle"), Said::tr("Record the measurement"), parent);
    QLineEdit* serial = serialField(d, chosen);
    QLineEdit* orifice = d->addNumber(Said::tr("Orifice measured (mm)"), QStringLiteral("0.405"));
    QComboBox* instrument = d->addChoice(Said::tr("Instrument"), instrumentChoices(bench.catalogue()));
    return finish(d, withSerial(serial, [=](const QString& text) -> Act {
        const auto mm = forms::wantNumber(orifice, Said::tr("Orifice"), 0.01);
        if (!mm) return tl::unexpected(mm.error());
        if (*mm > 10.0) {
            return refusal(QStringLiteral("number"), Said::tr("%1 mm is no orifice").arg(*mm),
                           Said::tr("enter millimetres such as 0.405"), Said::tr("Orifice"));
        }
        return Happening(act::NozzleMeasured{text, Length::fromMm(*mm), instrument->currentData().toString()});
    }));
}

ActDialog* retire(Bench& bench, const NozzleSerial& chosen, QWidget* parent) {
    auto* d = new ActDialog(bench, Said::tr("Retire a nozzle"), Said::tr("Retire"), parent);
    QLineEdit* serial = serialField(d, chosen);
    QLineEdit* why = d->addText(Said::tr("Why"), Said::tr("worn, damaged, clogged …"));
    return finish(d, withSerial(serial, [=](const QString& text) -> Act {
        const auto reason = forms::wantText(why, Said::tr("Why"));
        if (!reason) return tl::unexpected(reason.error());
        return Happening(act::NozzleRetired{text, *reason});
    }));
}

} // namespace interlude::nozzle_acts
