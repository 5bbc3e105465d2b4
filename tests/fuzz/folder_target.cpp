// One file of a fleet folder, the others good: the first line names it, the rest is its content. A folder is refused when
// and only when there is an error, every message says what and where, and a folder that is read twice is the same one.

#include "model/catalogue/text_file.h"
#include "tests/fuzz/small_shop.h"

using namespace interlude;
using namespace interlude::tests;

INTERLUDE_FUZZ_TARGET(folder) {
    const auto end = input.indexOf('\n');
    const QString first = QString::fromUtf8(input.left(end < 0 ? 0 : end));
    QMap<QString, QString> files = smallFolder();
    const QString name = files.contains(first) ? first : QStringLiteral("fleet.yaml");
    Problems unreadable;
    const auto text = textOf(name, files.contains(first) ? input.mid(end + 1) : input, unreadable);
    if (!text) return;
    files[name] = *text;
    const CatalogueReading r = readFleetTexts(files);
    bool error = false;
    for (const Problem& p : r.problems) {
        error = error || !p.warning;
        promise(!p.file.isEmpty() && !p.what.isEmpty() && p.line >= 0 && p.column >= 0, "a problem says what and where", p.text());
    }
    promise((r.catalogue == nullptr) == error, "a folder is refused when there is an error");
    if (r.catalogue) promise(readFleetTexts(files).catalogue->hash == r.catalogue->hash, "reading is the same each time");
}
