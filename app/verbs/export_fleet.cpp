#include "app/verbs/opened_shop.h"

#include "model/ledger/canonical_json.h"
#include "model/records/record.h"
#include "views/paper/paper.h"

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

bool writeFile(const QString& path, const QByteArray& content) {
    QFile out(path);
    if (out.open(QIODevice::WriteOnly) && out.write(content) == content.size() && out.flush()) return true;
    complain(QStringLiteral("%1 cannot be written: %2").arg(path, out.errorString()));
    return false;
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
    if (!QDir().mkpath(out)) {
        complain(QStringLiteral("%1 cannot be made; choose a place where you may write").arg(out));
        return 1;
    }
    const auto lines = ledgerLines(workbench->store());
    if (!lines) {
        complain(sentence(lines.error()));
        return 1;
    }
    const QDir dir(out);
    if (!writeFile(dir.filePath(QStringLiteral("ledger.jsonl")), *lines)) return 1;
    const QByteArray sum = QCryptographicHash::hash(*lines, QCryptographicHash::Sha256).toHex();
    if (!writeFile(dir.filePath(QStringLiteral("sha256sums.txt")), sum + "  ledger.jsonl\n")) return 1;
    for (const SessionState& session : workbench->shop().sessions()) {
        const QString folder = dir.filePath(QStringLiteral("session-%1").arg(session.number, 4, 10, QLatin1Char('0')));
        const auto bundle = paper::writeBundle(recordOf(workbench->shop(), session, workbench->now()), folder);
        if (!bundle) {
            complain(sentence(bundle.error()));
            return 1;
        }
    }
    say(QStringLiteral("%1: the ledger (%2 events) and %3 session records")
            .arg(out).arg(workbench->store().lastSequence()).arg(workbench->shop().sessions().size()));
    return 0;
}

} // namespace interlude::app
