#pragma once
// One thing that happened. Format version 1 of the stored event, documented in resources/help/ledger-format.md:
//
//   hash(n) = SHA-256( hash(n−1) bytes ‖ canonical JSON of {format, happened-at, kind, payload, recorded-at, sequence,
//             station, who} ),   hash(0) = SHA-256("interlude ledger 1 " ‖ fleet id)
//
// Canonical JSON is RFC 8785 with integers within ±(2^53 − 1) only; times are integer milliseconds UTC.

#include "model/clock/instant.h"
#include "model/findings/finding.h"

#include <QByteArray>
#include <QJsonObject>
#include <QString>

namespace interlude {

inline constexpr int ledgerFormat = 1;

struct Event {
    qint64 sequence = 0; ///< gap-free from 1
    Instant recordedAt;  ///< when the program wrote it
    Instant happenedAt;  ///< when it happened, earlier if entered late
    QString station;     ///< name of the PC
    QString who;         ///< initials; empty for the program itself
    QString kind;
    QJsonObject payload;
    int format = ledgerFormat;
    QByteArray hash; ///< 32 bytes, set by the store
};

/// The bytes that are hashed with the previous hash. Refused (finding `ledger-json`) when the payload holds a number
/// that is no integer within ±(2^53 − 1).
Outcome<QByteArray> canonicalBytes(const Event& e);
QByteArray genesisHash(const QString& fleetId);
QByteArray chainedHash(const QByteArray& previous, const QByteArray& canonical);

} // namespace interlude
