#include "views/asking/fields.h"
#include "views/asking/job_dialog.h"
#include "views/words/words.h"

namespace interlude {

namespace {

tl::unexpected<Finding> wrong(const QString& what, const QString& right) {
    return refusal(QStringLiteral("variant"), what, right);
}

Outcome<double> amount(const QString& text, const QString& field, double most, bool zeroAllowed) {
    if (text.trimmed().isEmpty() && zeroAllowed) return 0.0;
    auto v = words::readNumber(text);
    if (!v || *v < 0 || *v > most || (*v == 0 && !zeroAllowed))
        return wrong(JobDialog::tr("%1 “%2” cannot be").arg(field, text.trimmed()),
                     JobDialog::tr("a number up to %1").arg(words::number(most)));
    return *v;
}

Outcome<MaterialId> materialOf(const QString& id, Role role, const Catalogue& c) {
    if (id.isEmpty() && role == Role::Support) return id;
    const Material* m = c.material(id);
    if (!m || m->role != role)
        return wrong(role == Role::Part ? JobDialog::tr("part material is missing")
                                        : JobDialog::tr("“%1” is no support material").arg(id),
                     JobDialog::tr("choose one of the catalogue"));
    return id;
}

QString minutesText(const Variant& v) {
    QStringList out;
    if (v.print.count() > 0 || v.printOn.empty()) out << QString::number(v.print.count());
    for (const auto& [printer, minutes] : v.printOn) out << QStringLiteral("%1: %2").arg(printer, QString::number(minutes.count()));
    return out.join(QStringLiteral("; "));
}

/// Puts the minutes into `v`, those on any printer and those by printer.
std::optional<Finding> readMinutes(const QString& text, Variant& v, const Catalogue& c) {
    const QString field = JobDialog::tr("print minutes");
    v.print = Minutes(0);
    v.printOn.clear();
    QStringList parts = text.split(QLatin1Char(';'), Qt::SkipEmptyParts);
    parts.removeIf([](const QString& part) { return part.trimmed().isEmpty(); });
    for (const QString& part : parts.isEmpty() ? QStringList{QString()} : parts) {
        const auto colon = part.lastIndexOf(QLatin1Char(':'));
        const PrinterId printer = colon < 0 ? PrinterId() : part.left(colon).trimmed();
        if (colon >= 0 && !c.printer(printer))
            return wrong(JobDialog::tr("%1: there is no printer “%2”").arg(field, printer), JobDialog::tr("the printer's id, for instance bay-1: 54; bay-2: 61")).value();
        if (colon < 0 ? v.print.count() > 0 : v.printOn.contains(printer))
            return wrong(JobDialog::tr("%1 “%2” say it twice").arg(field, text.trimmed()), JobDialog::tr("one number, or one for each printer")).value();
        const auto minutes = amount(part.mid(colon + 1), field, 60.0 * 24 * 60, false);
        if (!minutes) return minutes.error();
        (colon < 0 ? v.print : v.printOn[printer]) = Minutes(std::llround(std::ceil(*minutes)));
    }
    return {};
}

} // namespace

VariantText variantText(const Variant& v) {
    VariantText t;
    t.name = v.name;
    t.part = v.setup.part;
    t.support = v.setup.support;
    t.partNozzle = v.setup.partNozzle;
    t.supportNozzle = v.setup.supportNozzle;
    t.label = v.setup.label;
    t.minutes = minutesText(v);
    t.partCm3 = v.partVolume.mm3() == 0 ? QString() : fields::plainNumber(v.partVolume.cm3());
    t.supportCm3 = v.supportVolume.mm3() == 0 ? QString() : fields::plainNumber(v.supportVolume.cm3());
    if (v.setup.chamber) t.chamberC = fields::plainNumber(v.setup.chamber->celsius());
    return t;
}

Outcome<Variant> variantFrom(const VariantText& t, const Variant& keep, const Catalogue& c) {
    Variant v = keep;
    v.name = t.name.trimmed();
    const bool byLabel = !t.label.isEmpty() && t.part.isEmpty();
    if (v.name.isEmpty() && !byLabel) return wrong(JobDialog::tr("a variant has no name"), JobDialog::tr("for instance “fine”"));
    const auto named = [&](const Finding& f) {
        return refusal(f.rule, JobDialog::tr("Variant %1: %2").arg(v.name, f.reason), f.remedy);
    };
    if (byLabel) { // nothing else describes it: no materials, no volumes
        if (const auto f = readMinutes(t.minutes, v, c)) return named(*f);
        return v;
    }
    auto part = materialOf(t.part, Role::Part, c);
    if (!part) return named(part.error());
    auto support = materialOf(t.support, Role::Support, c);
    if (!support) return named(support.error());
    v.setup.label.clear();
    v.setup.part = *part;
    v.setup.support = *support;
    if (!c.nozzleType(t.partNozzle))
        return named(Finding{Severity::Refusal, QStringLiteral("variant"), JobDialog::tr("part nozzle type is missing"),
                             JobDialog::tr("choose one of the catalogue"), {}, false});
    if (!v.setup.support.isEmpty() && !c.nozzleType(t.supportNozzle))
        return named(Finding{Severity::Refusal, QStringLiteral("variant"),
                             JobDialog::tr("support nozzle type is missing"),
                             JobDialog::tr("choose one, or no support material"), {}, false});
    v.setup.partNozzle = t.partNozzle;
    v.setup.supportNozzle = v.setup.support.isEmpty() ? NozzleTypeId() : t.supportNozzle;
    if (const auto f = readMinutes(t.minutes, v, c)) return named(*f);
    auto partCm3 = amount(t.partCm3, JobDialog::tr("part volume"), 1e6, false);
    if (!partCm3) return named(partCm3.error());
    auto supportCm3 = amount(t.supportCm3, JobDialog::tr("support volume"), 1e6, true);
    if (!supportCm3) return named(supportCm3.error());
    v.partVolume = Volume::fromCm3(*partCm3);
    v.supportVolume = Volume::fromCm3(*supportCm3);
    v.setup.chamber.reset();
    if (!t.chamberC.trimmed().isEmpty()) {
        auto chamber = amount(t.chamberC, JobDialog::tr("chamber set-point"), 400, false);
        if (!chamber) return named(chamber.error());
        v.setup.chamber = Temperature::fromCelsius(*chamber);
    }
    return v;
}

} // namespace interlude
