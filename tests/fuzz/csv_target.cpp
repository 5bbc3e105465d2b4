// A CSV as a table, and as an import into a small shop: a good one can be imported and then holds nothing new.

#include "model/catalogue/csv.h"
#include "model/catalogue/text_file.h"
#include "model/intake/intake.h"
#include "tests/fuzz/small_shop.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

void readAgain(const CsvTable& table) {
    QByteArray out;
    const auto add = [&](const std::vector<CsvField>& fields) {
        QStringList texts;
        for (const CsvField& f : fields) texts << f.text;
        out += csvLine(texts);
    };
    // A lone field of blanks is an empty line to the reader, and a formula gets its apostrophe.
    if (table.header.size() < 2) return;
    add(table.header);
    for (const CsvRecord& r : table.records) add(r.fields);
    Problems none;
    const CsvTable again = readCsv(QStringLiteral("f.csv"), QString::fromUtf8(out), none);
    promise(none.isEmpty(), "what was read can be written and read", QString::fromUtf8(out));
    promise(again.records.size() == table.records.size(), "no record is lost");
    for (std::size_t r = 0; r < table.records.size(); ++r)
        for (std::size_t c = 0; c < table.header.size(); ++c) {
            const QString was = table.records[r].fields[c].text, is = again.records[r].fields[c].text;
            promise(is == was || is == QLatin1Char('\'') + was, "a field says the same", was);
        }
}

EntryKind kindOfHeader(const QByteArray& input) {
    const QByteArray header = input.left(input.indexOf('\n'));
    return header.contains("serial") ? EntryKind::Nozzles : header.contains("material") ? EntryKind::Spools : EntryKind::Jobs;
}

} // namespace

INTERLUDE_FUZZ_TARGET(csv) {
    Problems problems;
    if (const auto text = textOf(QStringLiteral("f.csv"), input, problems)) {
        const CsvTable table = readCsv(QStringLiteral("f.csv"), *text, problems);
        for (const CsvRecord& r : table.records) promise(r.fields.size() == table.header.size(), "records are as wide as the header");
        if (problems.isEmpty()) readAgain(table);
    }
    const Shop& shop = smallShop().shop();
    const EntryKind kind = kindOfHeader(input);
    const Intake in = readIntake(shop, smallNow(), kind, QStringLiteral("f.csv"), input);
    for (const Problem& p : in.problems) promise(!p.what.isEmpty() && p.file == QStringLiteral("f.csv"), "a problem says what and where", p.text());
    promise(in.isGood() || in.count() == 0, "nothing comes in by halves");
    promise(!in.isGood() || in.count() + in.known.size() > 0, "a file without entries is a problem");
    if (in.count() == 0) return;
    const Happening act = actOf(in);
    const Findings against = refusalsIn(objections(shop, act, QStringLiteral("ML"), smallNow()));
    promise(against.isEmpty(), "what was judged good is not refused", against.isEmpty() ? QString() : sentence(against.first()));
    Shop after = shop;
    const auto folded = after.apply(nextEvent(kindOf(act), toPayload(act)));
    promise(folded.has_value(), "what was judged good comes in", folded ? QString() : sentence(folded.error()));
    const Intake again = readIntake(after, smallNow(), kind, QStringLiteral("f.csv"), input);
    promise(again.isGood() && again.count() == 0, "the same file again brings nothing");
    promise(again.differing() == in.differing(), "the same file again is no difference", again.problems.isEmpty() ? QString() : again.problems.first().text());
}
