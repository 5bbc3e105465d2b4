#include "model/catalogue/readers.h"

#include <QRegularExpression>

#include <cmath>

namespace interlude {

namespace {

/// `print-minutes: 40`, or a map of printers to minutes.
void readPrint(Fields& f, Variant& v) {
    const QString key = QStringLiteral("print-minutes");
    const YamlNode* n = f.take(key, Need::Required);
    if (!n) return;
    if (n->kind != YamlNode::Kind::Map) {
        f.minutes(key, v.print, range::someMinutes());
        return;
    }
    if (n->entries.empty()) f.complain(key, QStringLiteral("`print-minutes` names no printer"), QStringLiteral("give minutes, or {printer: minutes}"));
    for (const YamlEntry& e : n->entries) {
        f.reading().refer(Kind::Printer, e.key, e.where);
        if (const auto m = numberOf(f.reading(), e.value, e.key, range::someMinutes()))
            v.printOn[e.key] = Minutes(static_cast<int>(std::ceil(*m)));
    }
}

/// By label, or by materials and nozzle types.
void readVariantSetup(Fields& f, Variant& v) {
    Setup& s = v.setup;
    const bool byLabel = f.text(QStringLiteral("setup"), s.label, Need::Optional, 64) || f.has(QStringLiteral("setup"));
    const Need need = byLabel ? Need::Optional : Need::Required;
    f.refersTo(Kind::Material, QStringLiteral("part"), s.part, need);
    f.refersTo(Kind::Material, QStringLiteral("support"), s.support);
    f.refersTo(Kind::NozzleType, QStringLiteral("part-nozzle"), s.partNozzle, need);
    f.refersTo(Kind::NozzleType, QStringLiteral("support-nozzle"), s.supportNozzle,
               f.has(QStringLiteral("support")) && !byLabel ? Need::Required : Need::Optional);
    f.celsius(QStringLiteral("chamber-c"), s.chamber);
    f.cm3(QStringLiteral("part-cm3"), v.partVolume, range::someCm3(), need);
    f.cm3(QStringLiteral("support-cm3"), v.supportVolume, range::cm3(),
          f.has(QStringLiteral("support")) && !byLabel ? Need::Required : Need::Optional);
    if (byLabel)
        for (const char* key : {"part", "support", "part-nozzle", "support-nozzle", "chamber-c", "part-cm3", "support-cm3"})
            if (const QString other = QString::fromLatin1(key); f.has(other))
                f.complain(other, QStringLiteral("a job known by its setup's label has no `%1`").arg(other),
                           QStringLiteral("remove `setup`, or describe nothing else"));
    if (!byLabel && f.has(QStringLiteral("support-nozzle")) && !f.has(QStringLiteral("support")))
        f.complain(QStringLiteral("support-nozzle"), QStringLiteral("a support nozzle is named but no `support`"),
                   QStringLiteral("name the support material, or remove the nozzle"));
}

void readVariants(Fields& f, Job& job) {
    if (!f.has(QStringLiteral("variants"))) {
        Variant v;
        if (!f.has(QStringLiteral("setup")) && f.isMap()) {
            f.take(QStringLiteral("setup"));
            f.take(QStringLiteral("print-minutes"));
            f.take(QStringLiteral("variants"));
            f.reading().complain(f.node().where, QStringLiteral("neither `variants` nor `setup` says how this job is printed"),
                                 QStringLiteral("add `variants` with materials and nozzles, or `setup` with a label"));
            return;
        }
        f.text(QStringLiteral("setup"), v.setup.label, Need::Optional, 64);
        readPrint(f, v);
        f.take(QStringLiteral("variants"));
        job.variants.append(v);
        return;
    }
    for (const char* key : {"setup", "print-minutes"})
        if (const QString other = QString::fromLatin1(key); f.take(other))
            f.complain(other, QStringLiteral("`%1` beside `variants`").arg(other), QStringLiteral("put it into each variant, or remove `variants`"));
    const auto nodes = f.list(QStringLiteral("variants"), Need::Required, Empty::Refused);
    QStringList names;
    for (const YamlNode* node : nodes) {
        Fields g(f.reading(), *node, QStringLiteral("a variant"));
        Variant v;
        g.text(QStringLiteral("name"), v.name, nodes.size() > 1 ? Need::Required : Need::Optional, 64);
        readVariantSetup(g, v);
        readPrint(g, v);
        if (!v.name.isEmpty() && names.contains(v.name))
            g.complain(QStringLiteral("name"), QStringLiteral("two variants are named `%1`").arg(v.name), QStringLiteral("give each its own name"));
        names.append(v.name);
        job.variants.append(v);
    }
}

/// Minutes per printer must say something about every printer that the job may go to; a silent 0 would be a wonder.
void settlePrinters(Fields& f, Job& job) {
    f.refersToAll(Kind::Printer, QStringLiteral("printers"), job.printers, Empty::Refused);
    if (job.variants.isEmpty()) return;
    const auto named = [](const Variant& v) {
        QStringList ids;
        for (const auto& [printer, minutes] : v.printOn) ids.append(printer);
        return ids;
    };
    const QStringList first = named(job.variants.front());
    const bool alike = std::all_of(job.variants.begin(), job.variants.end(),
                                   [&](const Variant& v) { return v.print == Minutes(0) && named(v) == first; });
    if (job.printers.isEmpty() && alike) job.printers = first;
}

void checkCoverage(Reading& r, const Catalogue& c, const Job& job) {
    const YamlNode* entry = r.entry(Kind::Job, job.id);
    if (!entry) return;
    for (qsizetype i = 0; i < job.variants.size(); ++i) {
        const Variant& v = job.variants[i];
        if (v.printOn.empty()) continue;
        QStringList missing;
        for (const Printer& p : c.fleet.printers)
            if ((job.printers.isEmpty() || job.printers.contains(p.id)) && !v.printOn.contains(p.id)) missing.append(p.id);
        if (missing.isEmpty()) continue;
        const YamlNode* list = entry->find(QStringLiteral("variants"));
        const YamlNode& at = list ? list->items[static_cast<std::size_t>(i)] : *entry;
        r.complain(whereOf(at, QStringLiteral("print-minutes")),
                   QStringLiteral("`print-minutes` says nothing about %1").arg(missing.join(QStringLiteral(", "))),
                   QStringLiteral("add the minutes, or leave the printer out of `printers`"));
    }
}

Job readJob(Fields& f) {
    static const QRegularExpression sha(QStringLiteral("^[0-9a-fA-F]{64}$"));
    Job job;
    f.defines(Kind::Job, QStringLiteral("id"), job.id);
    f.text(QStringLiteral("title"), job.title);
    f.text(QStringLiteral("part-number"), job.partNumber, Need::Optional, 64);
    f.text(QStringLiteral("revision"), job.revision, Need::Optional, 32);
    f.text(QStringLiteral("order"), job.order, Need::Optional, 64);
    f.whole(QStringLiteral("quantity"), job.quantity, {1, 1e6, {}});
    f.text(QStringLiteral("build-file"), job.buildFile, Need::Optional, 255);
    if (f.text(QStringLiteral("build-sha256"), job.buildSha256) && !sha.match(job.buildSha256).hasMatch())
        f.complain(QStringLiteral("build-sha256"), QStringLiteral("`build-sha256` is not a SHA-256"), QStringLiteral("64 hexadecimal digits are wanted"));
    job.buildSha256 = job.buildSha256.toLower();
    f.localTime(QStringLiteral("release"), job.release);
    f.localTime(QStringLiteral("due"), job.due);
    if (job.release && job.due && *job.due < *job.release)
        f.complain(QStringLiteral("due"), QStringLiteral("`due` is before `release`"), QStringLiteral("check both"));
    f.money(QStringLiteral("late-cost-per-hour"), job.lateCostPerHour);
    f.money(QStringLiteral("holding-cost-per-hour"), job.holdingCostPerHour);
    f.yesNo(QStringLiteral("same-lot"), job.sameLot);
    readEnvelope(f, QStringLiteral("envelope-mm"), job.envelope);
    readVariants(f, job);
    settlePrinters(f, job);
    return job;
}

} // namespace

void readJobs(Reading& r, const YamlNode& root, Catalogue& out) {
    Fields top(r, root, QStringLiteral("jobs.yaml"));
    for (const YamlNode* node : top.list(QStringLiteral("jobs"), Need::Required)) {
        Fields f(r, *node, QStringLiteral("a job"));
        Job job = readJob(f);
        job.rank = static_cast<int>(out.openings.jobs.size());
        if (job.id.isEmpty()) continue;
        out.openings.jobs.append(job);
        checkCoverage(r, out, job);
    }
}

} // namespace interlude
