#include "views/asking/job_dialog.h"
#include "views/words/words.h"

namespace interlude {

namespace {

QString plainNumber(double v) {
    return words::number(v).replace(QChar(0x2212), QLatin1Char('-'));
}

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

} // namespace

VariantText variantText(const Variant& v) {
    VariantText t;
    t.name = v.name;
    t.part = v.setup.part;
    t.support = v.setup.support;
    t.partNozzle = v.setup.partNozzle;
    t.supportNozzle = v.setup.supportNozzle;
    t.minutes = QString::number(v.print.count());
    t.partCm3 = plainNumber(v.partVolume.cm3());
    t.supportCm3 = v.supportVolume.mm3() == 0 ? QString() : plainNumber(v.supportVolume.cm3());
    if (v.setup.chamber) t.chamberC = plainNumber(v.setup.chamber->celsius());
    return t;
}

Outcome<Variant> variantFrom(const VariantText& t, const Variant& keep, const Catalogue& c) {
    Variant v = keep;
    v.name = t.name.trimmed();
    if (v.name.isEmpty()) return wrong(JobDialog::tr("a variant has no name"), JobDialog::tr("for instance “fine”"));
    const auto named = [&](const Finding& f) {
        return refusal(f.rule, JobDialog::tr("Variant %1: %2").arg(v.name, f.reason), f.remedy);
    };
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
    auto minutes = amount(t.minutes, JobDialog::tr("print minutes"), 60.0 * 24 * 60, false);
    if (!minutes) return named(minutes.error());
    auto partCm3 = amount(t.partCm3, JobDialog::tr("part volume"), 1e6, false);
    if (!partCm3) return named(partCm3.error());
    auto supportCm3 = amount(t.supportCm3, JobDialog::tr("support volume"), 1e6, true);
    if (!supportCm3) return named(supportCm3.error());
    v.print = Minutes(std::llround(std::ceil(*minutes)));
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
