#include "model/catalogue/readers.h"

namespace interlude {

namespace {

const Range grams{0, 100'000, QStringLiteral("g")};

bool readMass(Fields& f, const QString& key, std::optional<Mass>& out) {
    double g = 0;
    if (!f.number(key, g, grams)) return false;
    out = Mass::fromGrams(g);
    return true;
}

void checkOrder(Fields& f, const Spool& s) {
    if (s.received && s.opened && *s.opened < *s.received)
        f.complain(QStringLiteral("opened"), QStringLiteral("`opened` is before `received`"), QStringLiteral("check both"));
    if (s.received && s.expires && *s.expires <= *s.received)
        f.complain(QStringLiteral("expires"), QStringLiteral("`expires` is not after `received`"), QStringLiteral("check both"));
}

/// Without an example clock this is asked when the entry is imported.
void checkHasHappened(Fields& f, const char* key, const std::optional<Instant>& t, const Fleet& fleet) {
    if (t && fleet.exampleClock && *t > instantOf(*fleet.exampleClock))
        f.complain(QString::fromLatin1(key), QStringLiteral("`%1` lies after `example-clock`").arg(QLatin1String(key)),
                   QStringLiteral("it has not happened yet when the example begins"));
}

Spool readSpool(Fields& f, const Fleet& fleet) {
    Spool s;
    f.defines(Kind::Spool, QStringLiteral("id"), s.id);
    f.refersTo(Kind::Material, QStringLiteral("material"), s.material, Need::Required);
    f.text(QStringLiteral("lot"), s.lot, Need::Required, 64);
    // Left out, the stock is unknown; it is never zero.
    readMass(f, QStringLiteral("grams"), s.left);
    std::optional<Mass> se;
    if (readMass(f, QStringLiteral("grams-se"), se)) s.leftSe = *se;
    if (se && !f.has(QStringLiteral("grams")))
        f.complain(QStringLiteral("grams-se"), QStringLiteral("`grams-se` without `grams`"), QStringLiteral("give both, or neither"));
    readMass(f, QStringLiteral("tare-grams"), s.tare);
    f.refersTo(Kind::Place, QStringLiteral("place"), s.place);
    f.localTime(QStringLiteral("received"), s.received, true);
    f.localTime(QStringLiteral("opened"), s.opened, true);
    f.localTime(QStringLiteral("dried"), s.dried, true);
    f.localTime(QStringLiteral("expires"), s.expires, true);
    checkOrder(f, s);
    checkHasHappened(f, "received", s.received, fleet);
    checkHasHappened(f, "opened", s.opened, fleet);
    checkHasHappened(f, "dried", s.dried, fleet);
    return s;
}

} // namespace

void readSpools(Reading& r, const YamlNode& root, Catalogue& out) {
    Fields top(r, root, QStringLiteral("spools.yaml"));
    for (const YamlNode* node : top.list(QStringLiteral("spools"), Need::Required)) {
        Fields f(r, *node, QStringLiteral("a spool"));
        Spool s = readSpool(f, out.fleet);
        s.order = static_cast<int>(out.openings.spools.size());
        // An opened spool is exposed since it was opened or last dried, unless it lies where it is dry.
        const Place* place = out.place(s.place);
        if (s.opened && !(place && place->dry)) s.exposedFrom = s.dried ? std::max(*s.opened, *s.dried) : *s.opened;
        if (!s.id.isEmpty()) out.openings.spools.append(s);
    }
}

} // namespace interlude
