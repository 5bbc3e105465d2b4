#include "model/ledger/event.h"

#include "model/ledger/canonical_json.h"

#include <QCryptographicHash>

namespace interlude {

Outcome<QByteArray> canonicalBytes(const Event& e) {
    const QJsonObject all{
        {QStringLiteral("format"), e.format},
        {QStringLiteral("happened-at"), toMs(e.happenedAt)},
        {QStringLiteral("kind"), e.kind},
        {QStringLiteral("payload"), e.payload},
        {QStringLiteral("recorded-at"), toMs(e.recordedAt)},
        {QStringLiteral("sequence"), e.sequence},
        {QStringLiteral("station"), e.station},
        {QStringLiteral("who"), e.who},
    };
    return canonicalJson(all);
}

QByteArray genesisHash(const QString& fleetId) {
    return QCryptographicHash::hash(QByteArrayLiteral("interlude ledger 1 ") + fleetId.toUtf8(),
                                    QCryptographicHash::Sha256);
}

QByteArray chainedHash(const QByteArray& previous, const QByteArray& canonical) {
    QCryptographicHash sha(QCryptographicHash::Sha256);
    sha.addData(previous);
    sha.addData(canonical);
    return sha.result();
}

} // namespace interlude
