// The file of a ledger, or (where it is no database) the canonical bytes of events, one a line. A damaged one is refused
// or named by verify; nothing crashes, and nothing that verify passes is unreadable.

#include "model/ledger/canonical_json.h"
#include "model/ledger/chain.h"
#include "tests/fuzz/small_shop.h"

#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::tests;

namespace {

void readLines(const QByteArray& input) {
    ChainCheck check(QStringLiteral("small-yard"));
    for (const QByteArray& line : input.split('\n')) {
        if (const auto object = parseCanonicalJson(line)) promise(*canonicalJson(*object) == line, "canonical bytes are the only ones");
        const auto event = eventOf(line);
        if (event) promise(*canonicalBytes(*event) == line, "an event is written as it was read");
        (void)check.next({check.expected(), line, QByteArray(32, 'x')});
    }
}

void readFile(const QByteArray& input) {
    static const QTemporaryDir dir;
    const QString path = dir.filePath(QStringLiteral("l.sqlite"));
    for (const char* suffix : {"", "-wal", "-shm", "-journal"}) QFile::remove(path + QLatin1String(suffix));
    QFile file(path);
    promise(file.open(QIODevice::WriteOnly) && file.write(input) == input.size(), "the target can write its file");
    file.close();
    auto store = openSqliteStore(path, QStringLiteral("small-yard"), QStringLiteral("fuzz"), true);
    if (!store) {
        promise(!store.error().reason.isEmpty(), "a refusal says why");
        return;
    }
    const bool fits = !(*store)->verify();
    const qint64 last = (*store)->lastSequence();
    const auto read = (*store)->read(0, [](const Event&) { return true; });
    promise(!fits || (read && *read == last), "what verify passes can be read", read ? QString::number(*read) : sentence(read.error()));
    const ManualClock clock(smallNow());
    (void)Workbench::look(smallShop().shop().cataloguePtr(), std::move(*store), clock);
}

} // namespace

INTERLUDE_FUZZ_TARGET(ledger) {
    if (input.startsWith("SQLite format 3")) readFile(input);
    else readLines(input);
}
