#include "model/intake/intake.h"

namespace interlude {

namespace {

/// What one key says, as people write it.
template <class T> struct Said {
    const char* key;
    std::function<QString(const T&)> text;
};

template <class T>
QStringList compare(const T& file, const T& shop, const QStringList& stated, const QList<Said<T>>& all) {
    QStringList out;
    for (const Said<T>& said : all) {
        const QString key = QString::fromLatin1(said.key);
        if (!stated.contains(key)) continue;
        const QString there = said.text(shop), here = said.text(file);
        if (there == here) continue;
        out.append(QStringLiteral("%1: %2 in the file, %3 in the shop")
                       .arg(key, here, there.isEmpty() ? QStringLiteral("nothing") : there));
    }
    return out;
}

QString when(const std::optional<Instant>& t, const QTimeZone& zone) {
    return t ? toZone(*t, zone).toString(QStringLiteral("yyyy-MM-ddTHH:mm")) : QString();
}
QString money(Money m) { return QString::number(static_cast<double>(m.cents()) / 100, 'f', 2); }
QString grams(const std::optional<Mass>& m) {
    return m ? QString::number(static_cast<double>(m->milligrams()) / 1000) : QStringLiteral("unknown");
}
QString envelope(const std::optional<Envelope>& e) {
    return e ? QStringLiteral("%1 x %2 x %3").arg(e->x.mm()).arg(e->y.mm()).arg(e->z.mm()) : QString();
}

QList<Said<Job>> saidOfJobs(const QTimeZone& zone) {
    return {{"title", [](const Job& j) { return j.title; }},
            {"part-number", [](const Job& j) { return j.partNumber; }},
            {"revision", [](const Job& j) { return j.revision; }},
            {"order", [](const Job& j) { return j.order; }},
            {"quantity", [](const Job& j) { return QString::number(j.quantity); }},
            {"build-file", [](const Job& j) { return j.buildFile; }},
            {"build-sha256", [](const Job& j) { return j.buildSha256; }},
            {"release", [zone](const Job& j) { return when(j.release, zone); }},
            {"due", [zone](const Job& j) { return when(j.due, zone); }},
            {"late-cost-per-hour", [](const Job& j) { return money(j.lateCostPerHour); }},
            {"holding-cost-per-hour", [](const Job& j) { return money(j.holdingCostPerHour); }},
            {"same-lot", [](const Job& j) { return j.sameLot ? QStringLiteral("true") : QStringLiteral("false"); }},
            {"printers", [](const Job& j) { return j.printers.join(QStringLiteral("; ")); }},
            {"envelope-mm", [](const Job& j) { return envelope(j.envelope); }}};
}

} // namespace

QStringList differencesFrom(const Shop& shop, const Job& job, const QStringList& stated) {
    const Job* known = shop.job(job.id);
    if (!known) return {};
    QStringList out = compare(job, *known, stated, saidOfJobs(shop.catalogue().fleet.zone));
    if (job.variants != known->variants) out.append(QStringLiteral("the variants are others"));
    return out;
}

QStringList differencesFrom(const Shop& shop, const Spool& spool, const QStringList& stated) {
    const Spool* found = shop.spool(spool.id);
    if (!found) return {};
    Spool came = *found;
    // The first entry of its stock is what it came in with.
    came.left = came.entries.isEmpty() || came.entries.first().why != QStringLiteral("received")
                    ? std::nullopt
                    : std::optional(came.entries.first().change);
    const QTimeZone zone = shop.catalogue().fleet.zone;
    return compare<Spool>(spool, came, stated,
                          {{"material", [](const Spool& s) { return s.material; }},
                           {"lot", [](const Spool& s) { return s.lot; }},
                           {"grams", [](const Spool& s) { return grams(s.left); }},
                           {"tare-grams", [](const Spool& s) { return grams(s.tare); }},
                           {"received", [zone](const Spool& s) { return when(s.received, zone); }},
                           {"expires", [zone](const Spool& s) { return when(s.expires, zone); }}});
}

QStringList differencesFrom(const Shop& shop, const Nozzle& nozzle, const QStringList& stated) {
    const Nozzle* found = shop.nozzle(nozzle.serial);
    if (!found) return {};
    QStringList out = compare<Nozzle>(nozzle, *found, stated,
                                      {{"type", [](const Nozzle& n) { return n.type; }},
                                       {"melt-family", [](const Nozzle& n) { return n.meltFamily; }}});
    // Use only grows: a file that knows more of it knows something that the shop does not.
    const auto more = [&](const char* key, Volume file, Volume there) {
        if (nozzle.run.known && found->run.known && file > there)
            out.append(QStringLiteral("%1: %2 in the file, %3 in the shop").arg(QString::fromLatin1(key)).arg(file.cm3()).arg(there.cm3()));
    };
    more("run-cm3", nozzle.run.plain, found->run.plain);
    more("run-abrasive-cm3", nozzle.run.abrasive, found->run.abrasive);
    return out;
}

} // namespace interlude
