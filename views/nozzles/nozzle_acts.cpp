#include "views/nozzles/nozzle_acts.h"

#include "views/asking/fields.h"
#include "views/words/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCoreApplication>
#include <QLineEdit>

namespace interlude::nozzle_acts {

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(NozzleActs)
};

using Act = Outcome<Happening>;

ActDialog* nozzleDialog(Bench& bench, const NozzleSerial& serial, const QString& title, const QString& verb,
                        QWidget* parent) {
    return new ActDialog(bench, {Said::tr("Serial"), Said::tr("scan or type it")}, serial, title, verb, parent);
}

/// The three fields that say how much went through: two numbers, or no history.
struct UseFields {
    QLineEdit* plain;
    QLineEdit* abrasive;
    QCheckBox* none;

    explicit UseFields(ActDialog* d, const RunVolume& run)
        : plain(d->addLine(QStringLiteral("usePlain"), Said::tr("Use so far, plain (cm³)"))),
          abrasive(d->addLine(QStringLiteral("useAbrasive"), Said::tr("Use so far, abrasive (cm³)"))),
          none(d->addCheck(QStringLiteral("useUnknown"), Said::tr("No history: nobody knows how much went through it"), !run.known)) {
        show(run);
        const auto follow = [p = plain, a = abrasive](bool unknown) {
            p->setEnabled(!unknown);
            a->setEnabled(!unknown);
        };
        QObject::connect(none, &QCheckBox::toggled, d, follow);
        follow(!run.known);
    }

    void show(const RunVolume& run) const {
        plain->setText(fields::plainNumber(run.plain.cm3()));
        abrasive->setText(fields::plainNumber(run.abrasive.cm3()));
        none->setChecked(!run.known);
    }
    /// Whether somebody has typed another use than this.
    bool differs(const RunVolume& run) const {
        return plain->text() != fields::plainNumber(run.plain.cm3()) || abrasive->text() != fields::plainNumber(run.abrasive.cm3()) ||
               none->isChecked() == run.known;
    }

    Outcome<RunVolume> read() const {
        if (none->isChecked()) return RunVolume{false, {}, {}};
        const auto p = fields::wantNumber(plain, Said::tr("Use so far, plain"));
        if (!p) return tl::unexpected(p.error());
        const auto a = fields::wantNumber(abrasive, Said::tr("Use so far, abrasive"));
        if (!a) return tl::unexpected(a.error());
        return RunVolume{true, Volume::fromCm3(*p), Volume::fromCm3(*a)};
    }
};

QList<Choice> typeChoices(const Catalogue& catalogue) {
    QList<Choice> out;
    for (const NozzleType& t : catalogue.nozzleTypes)
        out.append({Said::tr("%1 (%2 mm)").arg(t.name).arg(t.orifice.mm()), t.id});
    return out;
}

/// Melt families of the catalogue's materials, "none yet" first.
QList<Choice> familyChoices(const Catalogue& catalogue) {
    QList<Choice> out{{Said::tr("none yet: never used"), QString()}};
    QStringList seen;
    for (const Material& m : catalogue.materials)
        if (!seen.contains(m.meltFamily)) seen.append(m.meltFamily);
    seen.sort();
    for (const QString& family : seen) out.append({words::plain(family), family});
    return out;
}

/// `proposed` empty: a person must choose.
QList<Choice> instrumentChoices(const Catalogue& catalogue, const QString& proposed) {
    QList<Choice> out;
    if (!catalogue.instrument(proposed)) out.append({Said::tr("choose"), QString()});
    for (const Instrument& i : catalogue.fleet.instruments) out.append({i.name, i.id});
    return out;
}

/// The instrument that the shop's procedures name for the reading of an orifice; empty = none.
QString instrumentByProcedure(const Catalogue& catalogue) {
    for (const StepTemplate& s : catalogue.procedures.steps)
        for (const ReadingWanted& r : s.confirm.readings)
            if (r.unit == QStringLiteral("mm") && r.name.contains(QStringLiteral("orifice"), Qt::CaseInsensitive) && !r.instrument.isEmpty())
                return r.instrument;
    return {};
}

/// What the shop's last measurement of an orifice was taken with; before the first one, what its procedures say.
QString instrumentForOrifice(const Shop& shop) {
    QString instrument;
    std::optional<Instant> latest;
    for (const Nozzle& n : shop.stock().nozzles)
        for (const NozzleMeasurement& m : n.measurements) {
            if (latest && m.at < *latest) continue;
            latest = m.at;
            instrument = m.instrument;
        }
    return shop.catalogue().instrument(instrument) ? instrument : instrumentByProcedure(shop.catalogue());
}

} // namespace

ActDialog* receive(Bench& bench, QWidget* parent) {
    auto* d = nozzleDialog(bench, {}, Said::tr("Receive a nozzle"), Said::tr("Receive"), parent);
    QComboBox* type = d->addChoice(QStringLiteral("nozzleType"), Said::tr("Type"), typeChoices(bench.catalogue()));
    QComboBox* place = d->addChoice(QStringLiteral("nozzlePlace"), Said::tr("Place"), fields::placeChoices(bench.catalogue()));
    QComboBox* family = d->addChoice(QStringLiteral("nozzleFamily"), Said::tr("Melt family"), familyChoices(bench.catalogue()));
    const UseFields use(d, RunVolume{});
    d->begin([=](const QString& text) -> Act {
        const auto run = use.read();
        if (!run) return tl::unexpected(run.error());
        Nozzle n;
        n.serial = text;
        n.type = type->currentData().toString();
        n.place = place->currentData().toString();
        n.meltFamily = family->currentData().toString();
        n.run = *run;
        return Happening(act::NozzleReceived{n});
    });
    return d;
}

ActDialog* stateUse(Bench& bench, const NozzleSerial& chosen, QWidget* parent) {
    auto* d = nozzleDialog(bench, chosen, Said::tr("State the use so far of a nozzle"), Said::tr("Record the use"), parent);
    const UseFields use(d, bench.shop().stock().nozzles.value(chosen).run);
    // Another nozzle scanned has its own use so far; what was typed stays.
    QObject::connect(d->idField(), &QLineEdit::textChanged, d, [&bench, use, shown = bench.shop().stock().nozzles.value(chosen).run](const QString& serial) mutable {
        const auto now = bench.shop().stock().nozzles.constFind(serial.trimmed());
        if (now == bench.shop().stock().nozzles.cend() || use.differs(shown)) return;
        shown = now->run;
        use.show(shown);
    });
    d->begin([=](const QString& text) -> Act {
        const auto run = use.read();
        if (!run) return tl::unexpected(run.error());
        return Happening(act::NozzleUseStated{text, *run});
    });
    return d;
}

ActDialog* measure(Bench& bench, const NozzleSerial& chosen, QWidget* parent) {
    auto* d = nozzleDialog(bench, chosen, Said::tr("Enter a measurement of a nozzle"), Said::tr("Record the measurement"), parent);
    QLineEdit* orifice = d->addLine(QStringLiteral("measureOrifice"), Said::tr("Orifice measured (mm)"), {}, QStringLiteral("0.405"));
    const QString proposed = instrumentForOrifice(bench.shop());
    QComboBox* instrument = d->addChoice(QStringLiteral("measureInstrument"), Said::tr("Instrument"),
                                         instrumentChoices(bench.catalogue(), proposed), proposed);
    d->begin([=](const QString& text) -> Act {
        const auto mm = fields::wantNumber(orifice, Said::tr("Orifice"), 0.01);
        if (!mm) return tl::unexpected(mm.error());
        if (*mm > 10.0) {
            return refusal(QStringLiteral("number"), Said::tr("%1 mm is no orifice").arg(*mm),
                           Said::tr("enter millimetres such as 0.405"), Said::tr("Orifice"));
        }
        if (instrument->currentData().toString().isEmpty() && instrument->count() > 1)
            return refusal(QStringLiteral("missing"), Said::tr("The instrument is still to be chosen"), {}, Said::tr("Instrument"));
        return Happening(act::NozzleMeasured{text, Length::fromMm(*mm), instrument->currentData().toString()});
    });
    return d;
}

ActDialog* retire(Bench& bench, const NozzleSerial& chosen, QWidget* parent) {
    auto* d = nozzleDialog(bench, chosen, Said::tr("Retire a nozzle"), Said::tr("Retire"), parent);
    QLineEdit* why = d->addLine(QStringLiteral("retireWhy"), Said::tr("Why"), {}, Said::tr("worn, damaged, clogged …"));
    d->begin([=](const QString& text) -> Act {
        const auto reason = fields::wantText(why, Said::tr("Why"));
        if (!reason) return tl::unexpected(reason.error());
        return Happening(act::NozzleRetired{text, *reason});
    });
    return d;
}

} // namespace interlude::nozzle_acts
