#pragma once
// RFC 8785 (JSON Canonicalization Scheme) for the values that the ledger allows: objects, arrays, strings, booleans,
// null and integers within ±(2^53 − 1). Anything else is refused, so that no two readers differ about a byte.

#include "model/findings/finding.h"

#include <QByteArray>
#include <QJsonObject>
#include <QJsonValue>

namespace interlude {

Outcome<QByteArray> canonicalJson(const QJsonValue& value);

/// The object that these bytes are the canonical form of; refused (`ledger-damaged`) when they are anything else.
Outcome<QJsonObject> parseCanonicalJson(const QByteArray& bytes);

} // namespace interlude
