#include "model/archive/archive.h"

namespace interlude::payload {

Reader::Reader(QJsonObject object, QString path, std::optional<Fault>& fault)
    : m_object(std::move(object)), m_path(std::move(path)), m_fault(fault) {
}

void Reader::finish() {
    for (auto it = m_object.constBegin(); it != m_object.constEnd(); ++it)
        if (!m_known.contains(it.key()))
            fail(m_path + it.key(), QStringLiteral("is not known to this version"));
}

void Reader::fail(const QString& field, const QString& what) {
    if (!m_fault)
        m_fault = Fault{field, what};
}

std::optional<qint64> Reader::integer(const QJsonValue& v, qint64 most, const QString& field) {
    // A double that happens to be whole is what a JSON parser makes of a number with an exponent: refused by range
    // only.
    const double d = v.toDouble();
    if (!v.isDouble() || d != std::trunc(d)) {
        fail(field, QStringLiteral("must be an integer"));
        return {};
    }
    if (std::abs(d) > static_cast<double>(most)) {
        fail(field, QStringLiteral("is out of range, at most %1").arg(most));
        return {};
    }
    return v.toInteger();
}

void Reader::read(const QJsonValue& v, QString& into, const QString& field) {
    if (!v.isString())
        return fail(field, QStringLiteral("must be a text"));
    into = v.toString();
}

void Reader::read(const QJsonValue& v, bool& into, const QString& field) {
    if (!v.isBool())
        return fail(field, QStringLiteral("must be true or false"));
    into = v.toBool();
}

void Reader::failWithin(const QString& field, const Finding& fault) {
    const QString inner = fault.place;
    QString what = fault.reason;
    what.remove(QStringLiteral("`%1` ").arg(inner));
    fail(inner.isEmpty() ? field : field + QLatin1Char('.') + inner, what);
}

} // namespace interlude::payload
