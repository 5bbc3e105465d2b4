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

/// Where one is, from here up. Put together as a JSON Pointer (RFC 6901) only when something is refused: a ledger of years is
/// written down anew whenever it is read from its beginning.
struct Here {
    const Here* above = nullptr;
    const QString* member = nullptr; ///< null: an item of a list
    qsizetype item = 0;

    QString pointer() const {
        if (!above) return {};
        QString key = member ? *member : QString::number(item);
        key.replace(QLatin1Char('~'), QStringLiteral("~0"));
        key.replace(QLatin1Char('/'), QStringLiteral("~1"));
        return above->pointer() + QLatin1Char('/') + key;
    }
};

tl::unexpected<Finding> refused(const Here& here, const QString& what, const QString& right) {
    const QString pointer = here.pointer();
    const QString where = pointer.isEmpty() ? QStringLiteral("the value itself") : pointer;
    return refusal(QStringLiteral("ledger-json"), QStringLiteral("%1: %2").arg(where, what), right, where);
}

class Writer {
public:
    Written value(const QJsonValue& v, const Here& here, int depth);
    QByteArray bytes;

private:
    Written number(const QJsonValue& v, const Here& here);
    Written text(const QString& s, const Here& here);
    Written array(const QJsonArray& a, const Here& here, int depth);
    Written object(const QJsonObject& o, const Here& here, int depth);
};

Written Writer::number(const QJsonValue& v, const Here& here) {
    // toInteger gives its default back for anything that is not integral.
    const qint64 whole = v.toInteger(0);
    const bool integral = whole == v.toInteger(1);
    if (!integral || whole > largestInteger || whole < -largestInteger)
        return refused(here,
                       QStringLiteral("%1 is no whole number within ±9007199254740991").arg(v.toDouble(), 0, 'g', 17),
                       QStringLiteral("store it as a whole number of a smaller unit"));
    bytes += QByteArray::number(whole);
    return 0;
}

Written Writer::text(const QString& s, const Here& here) {
    static const char hex[] = "0123456789abcdef";
    if (!s.isValidUtf16())
        return refused(here, QStringLiteral("the text holds half of a surrogate pair"),
                       QStringLiteral("use valid Unicode text"));
    bytes += '"';
    const QByteArray utf8 = s.toUtf8();
    qsizetype plain = 0; // what need not be escaped is copied in one piece
    for (qsizetype i = 0; i < utf8.size(); ++i) {
        const char c = utf8[i];
        if (static_cast<unsigned char>(c) >= 0x20 && c != '"' && c != '\\') continue;
        bytes.append(utf8.constData() + plain, i - plain);
        plain = i + 1;
        switch (c) {
        case '"': bytes += "\\\""; break;
        case '\\': bytes += "\\\\"; break;
        case '\b': bytes += "\\b"; break;
        case '\t': bytes += "\\t"; break;
        case '\n': bytes += "\\n"; break;
        case '\f': bytes += "\\f"; break;
        case '\r': bytes += "\\r"; break;
        default:
            bytes += "\\u00";
            bytes += hex[c >> 4];
            bytes += hex[c & 15];
        }
    }
    bytes.append(utf8.constData() + plain, utf8.size() - plain);
    bytes += '"';
    return 0;
}

Written Writer::array(const QJsonArray& a, const Here& here, int depth) {
    bytes += '[';
    for (qsizetype i = 0; i < a.size(); ++i) {
        if (i > 0) bytes += ',';
        if (auto done = value(a[i], {&here, nullptr, i}, depth + 1); !done) return done;
    }
    bytes += ']';
    return 0;
}

Written Writer::object(const QJsonObject& o, const Here& here, int depth) {
    // RFC 8785 3.2.3: by UTF-16 code units. Qt orders an object that it parsed in another way than one that was filled,
    // and then misses some keys beyond U+FFFF in a look-up: so members are walked over, never looked up.
    std::vector<std::pair<QString, QJsonValue>> sorted;
    sorted.reserve(static_cast<std::size_t>(o.size()));
    for (auto it = o.begin(); it != o.end(); ++it) sorted.emplace_back(it.key(), it.value());
    const auto before = [](const auto& a, const auto& b) {
        const QString &x = a.first, &y = b.first;
        return std::lexicographical_compare(x.utf16(), x.utf16() + x.size(), y.utf16(), y.utf16() + y.size());
    };
    if (!std::is_sorted(sorted.begin(), sorted.end(), before)) std::sort(sorted.begin(), sorted.end(), before);
    bytes += '{';
    bool first = true;
    for (const auto& [key, member] : sorted) {
        if (!first) bytes += ',';
        first = false;
        const Here below{&here, &key, 0};
        if (auto done = text(key, below); !done) return done;
        bytes += ':';
        if (auto done = value(member, below, depth + 1); !done) return done;
    }
    bytes += '}';
    return 0;
}

Written Writer::value(const QJsonValue& v, const Here& here, int depth) {
    if (depth > deepest)
        return refused(here, QStringLiteral("nested more than %1 levels deep").arg(deepest),
                       QStringLiteral("use a flatter structure"));
    switch (v.type()) {
    case QJsonValue::Null: bytes += "null"; return 0;
    case QJsonValue::Bool: bytes += v.toBool() ? "true" : "false"; return 0;
    case QJsonValue::Double: return number(v, here);
    case QJsonValue::String: return text(v.toString(), here);
    case QJsonValue::Array: return array(v.toArray(), here, depth);
    case QJsonValue::Object: return object(v.toObject(), here, depth);
    case QJsonValue::Undefined: break;
    }
    return refused(here, QStringLiteral("there is no value"), QStringLiteral("use null"));
}

} // namespace

Outcome<QByteArray> canonicalJson(const QJsonValue& value) {
    Writer writer;
    if (auto done = writer.value(value, Here(), 0); !done) return tl::unexpected<Finding>(done.error());
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
