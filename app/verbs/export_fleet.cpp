#include "app/verbs/opened_shop.h"

#include "model/intake/list_csv.h"
#include "model/ledger/canonical_json.h"
#include "model/records/bundle_check.h"
#include "model/records/record.h"
#include "views/paper/paper.h"
#include "views/photos/photo.h"
#include "views/paper/unfinished_folder.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QJsonObject>

namespace interlude::app {

namespace {

/// The whole ledger as JSON lines, so that it can be read in ten years without this program.
Outcome<QByteArray> ledgerLines(const EventStore& store) {
    QByteArray lines;
    std::optional<Finding> bad;
    const auto read = store.read(0, [&](const Event& e) {
        const auto bytes = canonicalBytes(e);
        if (!bytes) {
            bad = bytes.error();
            return false;
        }
        lines += *bytes + '\n';
        return true;
    });
    if (!read) return tl::unexpected(read.error());
    if (bad) return tl::unexpected(*bad);
    return lines;
}

Outcome<QByteArray> written(const QDir& dir, const QString& name, const QByteArray& content) {
    QFile out(dir.filePath(name));
    if (out.open(QIODevice::WriteOnly) && out.write(content) == content.size() && out.flush())
        return QCryptographicHash::hash(content, QCryptographicHash::Sha256).toHex() + "  " + name.toUtf8() + '\n';
    return refusal(QStringLiteral("export"), QStringLiteral("%1 cannot be written: %2").arg(name, out.errorString()),
                   QStringLiteral("choose a place where there is room and you may write"));
}

/// The sums of one session's files, named from the export's own folder.
Outcome<QByteArray> exportSession(const Workbench& workbench, const SessionState& session, const QDir& dir) {
    const QString name = QStringLiteral("session-%1").arg(session.number, 4, 10, QLatin1Char('0'));
    const auto bundle = paper::writeBundle(recordWithPhotos(workbench, session), dir.filePath(name));
    if (!bundle) return tl::unexpected(bundle.error());
    QFile sums(bundle->back());
    if (!sums.open(QIODevice::ReadOnly))
        return refusal(QStringLiteral("export"), QStringLiteral("%1 cannot be read back: %2").arg(bundle->back(), sums.errorString()));
    return sums.readAll().replace("  ", "  " + name.toUtf8() + '/');
}

Outcome<int> exportInto(const Workbench& workbench, const QDir& dir) {
    const auto lines = ledgerLines(workbench.store());
    if (!lines) return tl::unexpected(lines.error());
    const auto ledger = written(dir, QStringLiteral("ledger.jsonl"), *lines);
    if (!ledger) return tl::unexpected(ledger.error());
    QByteArray sums = *ledger;
    for (const EntryKind kind : {EntryKind::Jobs, EntryKind::Spools, EntryKind::Nozzles}) {
        const auto list = written(dir, wordOf(kind) + QStringLiteral(".csv"), listCsv(kind, workbench.shop()));
        if (!list) return tl::unexpected(list.error());
        sums += *list;
    }
    int sessions = 0;
    for (const SessionSummary& each : workbench.shop().sessionList()) {
        const SessionState* session = workbench.shop().session(each.number);
        if (!session) return refusal(QStringLiteral("export"), QStringLiteral("session %1 cannot be read").arg(each.number));
        const auto more = exportSession(workbench, *session, dir);
        if (!more) return tl::unexpected(more.error());
        sums += *more;
        ++sessions;
    }
    if (const auto list = written(dir, bundle::sums, sums); !list) return tl::unexpected(list.error());
    return sessions;
}

} // namespace

int exportFleet(const FleetOptions& options, const QString& out) {
    const SystemClock clock;
    const auto workbench = openShop(options, Access::Look, clock);
    if (!workbench) return 1;
    if (QFileInfo::exists(out)) {
        complain(QStringLiteral("%1 is there already; name a new folder, nothing is overwritten").arg(out));
        return 1;
    }
    paper::UnfinishedFolder made(out);
    if (!made.isThere()) {
        complain(QStringLiteral("%1 cannot be made; choose a place where you may write").arg(out));
        return 1;
    }
    const auto sessions = exportInto(*workbench, made.dir());
    if (!sessions) {
        complain(sentence(sessions.error()));
        return 1;
    }
    if (!made.keep()) {
        complain(QStringLiteral("%1 cannot be made; choose a place where you may write").arg(out));
        return 1;
    }
    say(QStringLiteral("%1: jobs.csv, spools.csv, nozzles.csv, the ledger (%2 events) and %3 session records").arg(out).arg(workbench->store().lastSequence()).arg(*sessions));
    return 0;
}

} // namespace interlude::app
