#include "model/ledger/canonical_json.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace interlude {

namespace {

constexpr qint64 largestInteger = 9007199254740991; // 2^53 − 1
// Qt's own reader stops at 1024 levels; what is written must be readable.
constexpr int deepest = 500;

using Written = Outcome<qint64>;

/// One step down in a JSON Pointer (RFC 6901).
QString below(const QString& pointer, QString key) {
    key.replace(QLatin1Char('~'), QStringLiteral("~0"));
    key.replace(QLatin1Char('/'), QStringLiteral("~1"));
    return pointer + QLatin1Char('/') + key;
}

tl::unexpected<Finding> refused(const QString& pointer, const QString& what, const QString& right) {
    const QString where = pointer.isEmpty() ? QStringLiteral("the value itself") : pointer;
    return refusal(QStringLiteral("ledger-json"), QStringLiteral("%1: %2").arg(where, what), right, where);
}

class Writer {
public:
    Written value(const QJsonValue& v, const QString& pointer, int depth);
    QByteArray bytes;

private:
    Written number(const QJsonValue& v, const QString& pointer);
    Written text(const QString& s, const QString& pointer);
    Written array(const QJsonArray& a, const QString& pointer, int depth);
    Written object(const QJsonObject& o, const QString& pointer, int depth);
};

Written Writer::number(const QJsonValue& v, const QString& pointer) {
    // toInteger gives its default back for anything that is not integral.
    const qint64 whole = v.toInteger(0);
    const bool integral = whole == v.toInteger(1);
    if (!integral || whole > largestInteger || whole < -largestInteger)
        return refused(pointer,
                       QStringLiteral("%1 is no whole number within ±9007199254740991").arg(v.toDouble(), 0, 'g', 17),
                       QStringLiteral("store it as a whole number of a smaller unit"));
    bytes += QByteArray::number(whole);
    return 0;
}

Written Writer::text(const QString& s, const QString& pointer) {
    static const char hex[] = "0123456789abcdef";
    if (!s.isValidUtf16())
        return refused(pointer, QStringLiteral("the text holds half of a surrogate pair"),
                       QStringLiteral("use valid Unicode text"));
    bytes += '"';
    for (const char c : s.toUtf8()) {
        switch (c) {
        case '"': bytes += "\\\""; break;
        case '\\': bytes += "\\\\"; break;
        case '\b': bytes += "\\b"; break;
        case '\t': bytes += "\\t"; break;
        case '\n': bytes += "\\n"; break;
        case '\f': bytes += "\\f"; break;
        case '\r': bytes += "\\r"; break;
        default:
            if (static_cast<unsigned char>(c) < 0x20) {
                bytes += "\\u00";
                bytes += hex[c >> 4];
                bytes += hex[c & 15];
            } else {
                bytes += c;
            }
        }
    }
    bytes += '"';
    return 0;
}

Written Writer::array(const QJsonArray& a, const QString& pointer, int depth) {
    bytes += '[';
    for (qsizetype i = 0; i < a.size(); ++i) {
        if (i > 0) bytes += ',';
        if (auto done = value(a[i], below(pointer, QString::number(i)), depth + 1); !done) return done;
    }
    bytes += ']';
    return 0;
}

Written Writer::object(const QJsonObject& o, const QString& pointer, int depth) {
    // RFC 8785 3.2.3: by UTF-16 code units. Qt orders an object that it parsed in another way than one that was filled,
    // and then misses some keys beyond U+FFFF in a look-up: so members are walked over, never looked up.
    std::vector<std::pair<QString, QJsonValue>> sorted;
    for (auto it = o.begin(); it != o.end(); ++it) sorted.emplace_back(it.key(), it.value());
    std::sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) {
        const QString &x = a.first, &y = b.first;
        return std::lexicographical_compare(x.utf16(), x.utf16() + x.size(), y.utf16(), y.utf16() + y.size());
    });
    bytes += '{';
    bool first = true;
    for (const auto& [key, member] : sorted) {
        if (!first) bytes += ',';
        first = false;
        const QString here = below(pointer, key);
        if (auto done = text(key, here); !done) return done;
        bytes += ':';
        if (auto done = value(member, here, depth + 1); !done) return done;
    }
    bytes += '}';
    return 0;
}

Written Writer::value(const QJsonValue& v, const QString& pointer, int depth) {
    if (depth > deepest)
        return refused(pointer, QStringLiteral("nested more than %1 levels deep").arg(deepest),
                       QStringLiteral("use a flatter structure"));
    switch (v.type()) {
    case QJsonValue::Null: bytes += "null"; return 0;
    case QJsonValue::Bool: bytes += v.toBool() ? "true" : "false"; return 0;
    case QJsonValue::Double: return number(v, pointer);
    case QJsonValue::String: return text(v.toString(), pointer);
    case QJsonValue::Array: return array(v.toArray(), pointer, depth);
    case QJsonValue::Object: return object(v.toObject(), pointer, depth);
    case QJsonValue::Undefined: break;
    }
    return refused(pointer, QStringLiteral("there is no value"), QStringLiteral("use null"));
}

} // namespace

Outcome<QByteArray> canonicalJson(const QJsonValue& value) {
    Writer writer;
    if (auto done = writer.value(value, QString(), 0); !done) return tl::unexpected<Finding>(done.error());
    return writer.bytes;
}

Outcome<QJsonObject> parseCanonicalJson(const QByteArray& bytes) {
    const auto damaged = [](const QString& why) {
        return refusal(QStringLiteral("ledger-damaged"), why,
                       QStringLiteral("keep this file as it is and continue from the last backup that verifies"));
    };
    // Qt drops U+FEFF at the beginning of a text unless it is escaped (a scanner or a paste can bring one in). After a
    // quotation mark it can only be within a text, so the escape means the same.
    QByteArray readable = bytes;
    readable.replace("\"\xEF\xBB\xBF", "\"\\ufeff");
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(readable, &error);
    if (error.error != QJsonParseError::NoError || !document.isObject())
        return damaged(QStringLiteral("the stored event is no JSON object"));
    const auto again = canonicalJson(document.object());
    if (!again || *again != bytes) return damaged(QStringLiteral("the stored event is not in canonical form (RFC 8785)"));
    return document.object();
}

} // namespace interlude
