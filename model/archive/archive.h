#pragma once
// One description of each struct serves writing and reading: `fields(archive, value)` names every member once, and the
// archive is a Writer or a Reader. Every key is always written (an empty optional as null), so a missing key is a
// fault, except of a member that came `later` than the first format: what was written before it reads as its default. Integers only; the unit is part of the key (`gross-mg`, `at-ms`). A Reader never throws and goes on after a
// fault with the member's default, remembering the first fault only.

#include "model/clock/instant.h"
#include "model/findings/finding.h"
#include "model/quantities/quantities.h"

#include <QJsonArray>
#include <QJsonObject>
#include <QMap>

#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <type_traits>

namespace interlude::payload {

inline constexpr qint64 largestInteger = (qint64(1) << 53) - 1;

/// How one type is kept as an integer, and which integers it can hold.
template <class T> struct Integer;
template <> struct Integer<qint64> {
    static qint64 out(qint64 v) { return v; }
    static qint64 in(qint64 v) { return v; }
    static constexpr qint64 most = largestInteger;
};
template <> struct Integer<int> {
    static qint64 out(int v) { return v; }
    static int in(qint64 v) { return static_cast<int>(v); }
    static constexpr qint64 most = std::numeric_limits<int>::max();
};
template <> struct Integer<Temperature> {
    static qint64 out(Temperature v) { return v.milliCelsius(); }
    static Temperature in(qint64 v) { return Temperature::fromMilliCelsius(v); }
    static constexpr qint64 most = std::numeric_limits<qint32>::max();
};
template <> struct Integer<Volume> {
    static qint64 out(Volume v) { return v.mm3(); }
    static Volume in(qint64 v) { return Volume::fromMm3(v); }
    static constexpr qint64 most = largestInteger;
};
template <> struct Integer<Mass> {
    static qint64 out(Mass v) { return v.milligrams(); }
    static Mass in(qint64 v) { return Mass::fromMilligrams(v); }
    static constexpr qint64 most = largestInteger;
};
template <> struct Integer<Length> {
    static qint64 out(Length v) { return v.micrometres(); }
    static Length in(qint64 v) { return Length::fromMicrometres(v); }
    static constexpr qint64 most = largestInteger;
};
template <> struct Integer<Money> {
    static qint64 out(Money v) { return v.cents(); }
    static Money in(qint64 v) { return Money::fromCents(v); }
    static constexpr qint64 most = largestInteger;
};
template <> struct Integer<Instant> {
    static qint64 out(Instant v) { return toMs(v); }
    static Instant in(qint64 v) { return instantFromMs(v); }
    /// The year 9999; later instants would overflow in later arithmetic.
    static constexpr qint64 most = 253402300799999;
};
template <> struct Integer<Milliseconds> {
    static qint64 out(Milliseconds v) { return v.count(); }
    static Milliseconds in(qint64 v) { return Milliseconds(v); }
    static constexpr qint64 most = 253402300799999;
};
template <> struct Integer<Minutes> {
    static qint64 out(Minutes v) { return v.count(); }
    static Minutes in(qint64 v) { return Minutes(v); }
    static constexpr qint64 most = 253402300799999 / 60000;
};
template <class T>
concept KeptAsInteger = requires {
    Integer<T>::most;
};

/// The words of an enumeration, in events.
template <class E> struct Words;
template <class E>
concept KeptAsWord = requires {
    Words<E>::all;
};

/// A type that is written and read by functions of its own: `out` gives a QJsonObject, `in` an Outcome of the type.
template <class T> struct OwnJson;
template <class T>
concept HasOwnJson = requires(const T& v) { OwnJson<T>::out(v); };

template <class Archive, class T> using Ref = std::conditional_t<Archive::reading, T&, const T&>;

class Writer {
public:
    static constexpr bool reading = false;
    template <class T> void operator()(const char* key, const T& value) {
        m_object.insert(QLatin1String(key), write(value));
    }
    template <class T> void later(const char* key, const T& value) { (*this)(key, value); }
    const QJsonObject& object() const { return m_object; }

private:
    template <class T> static QJsonValue write(const T& v) {
        if constexpr (KeptAsInteger<T>) {
            return Integer<T>::out(v);
        } else if constexpr (KeptAsWord<T>) {
            for (const auto& [value, name] : Words<T>::all)
                if (value == v)
                    return QLatin1String(name);
            return {};
        } else if constexpr (HasOwnJson<T>) {
            return OwnJson<T>::out(v);
        } else {
            Writer inner;
            fields(inner, v);
            return inner.object();
        }
    }
    static QJsonValue write(const QString& v) { return v; }
    static QJsonValue write(bool v) { return v; }
    template <class T> static QJsonValue write(const std::optional<T>& v) { return v ? write(*v) : QJsonValue(); }
    template <class T> static QJsonValue write(const QList<T>& v) {
        QJsonArray out;
        for (const T& item : v)
            out.append(write(item));
        return out;
    }
    template <class T> static QJsonValue write(const QMap<QString, T>& v) {
        QJsonObject out;
        for (auto it = v.begin(); it != v.end(); ++it)
            out.insert(it.key(), write(it.value()));
        return out;
    }
    template <class T> static QJsonValue write(const std::map<QString, T>& v) {
        QJsonObject out;
        for (const auto& [key, value] : v)
            out.insert(key, write(value));
        return out;
    }

    QJsonObject m_object;
};

/// What is wrong with a payload, and where: `spool.left-mg`, `scans[1].value`.
struct Fault {
    QString field, what;
};

class Reader {
public:
    static constexpr bool reading = true;
    /// `fault` is borrowed; it is set at the first fault and left alone afterwards.
    Reader(QJsonObject object, QString path, std::optional<Fault>& fault);

    template <class T> void operator()(const char* key, T& value) {
        const QString name = QString::fromLatin1(key);
        m_known.append(name);
        const auto found = m_object.constFind(name);
        if (found == m_object.constEnd())
            return fail(m_path + name, QStringLiteral("is missing"));
        read(*found, value, m_path + name);
    }
    /// A member that events of an earlier version do not have.
    template <class T> void later(const char* key, T& value) {
        if (m_object.contains(QString::fromLatin1(key)))
            (*this)(key, value);
    }
    /// A key that nobody asked for is a fault too: it would be lost without a word.
    void finish();

private:
    void fail(const QString& field, const QString& what);
    /// A fault that another reader found within `field`; it names its own field as the place and once in the reason.
    void failWithin(const QString& field, const Finding& fault);
    /// Empty after a fault.
    std::optional<qint64> integer(const QJsonValue& v, qint64 most, const QString& field);

    template <class T> void read(const QJsonValue& v, T& into, const QString& field) {
        if constexpr (KeptAsInteger<T>) {
            if (const auto n = integer(v, Integer<T>::most, field))
                into = Integer<T>::in(*n);
        } else if constexpr (KeptAsWord<T>) {
            QStringList known;
            for (const auto& [value, name] : Words<T>::all) {
                if (v.isString() && v.toString() == QLatin1String(name)) {
                    into = value;
                    return;
                }
                known.append(QString::fromLatin1(name));
            }
            fail(field, QStringLiteral("must be one of: ") + known.join(QStringLiteral(", ")));
        } else if constexpr (HasOwnJson<T>) {
            if (!v.isObject())
                return fail(field, QStringLiteral("must be an object"));
            Outcome<T> own = OwnJson<T>::in(v.toObject());
            if (!own)
                return failWithin(field, own.error());
            into = std::move(*own);
        } else {
            if (!v.isObject())
                return fail(field, QStringLiteral("must be an object"));
            Reader inner(v.toObject(), field + QLatin1Char('.'), m_fault);
            fields(inner, into);
            inner.finish();
        }
    }
    void read(const QJsonValue& v, QString& into, const QString& field);
    void read(const QJsonValue& v, bool& into, const QString& field);
    template <class T> void read(const QJsonValue& v, std::optional<T>& into, const QString& field) {
        into.reset();
        if (v.isNull())
            return;
        T value{};
        read(v, value, field);
        into = value;
    }
    template <class T> void read(const QJsonValue& v, QList<T>& into, const QString& field) {
        into.clear();
        if (!v.isArray())
            return fail(field, QStringLiteral("must be a list"));
        const QJsonArray items = v.toArray();
        for (qsizetype i = 0; i < items.size(); ++i) {
            T value{};
            read(items[i], value, QStringLiteral("%1[%2]").arg(field).arg(i));
            into.append(value);
        }
    }
    template <class T> void read(const QJsonValue& v, QMap<QString, T>& into, const QString& field) {
        into.clear();
        readMap<T>(v, field, [&](const QString& key, const T& value) { into.insert(key, value); });
    }
    template <class T> void read(const QJsonValue& v, std::map<QString, T>& into, const QString& field) {
        into.clear();
        readMap<T>(v, field, [&](const QString& key, const T& value) { into.emplace(key, value); });
    }
    template <class T, class Put> void readMap(const QJsonValue& v, const QString& field, const Put& put) {
        if (!v.isObject())
            return fail(field, QStringLiteral("must be an object"));
        const QJsonObject items = v.toObject();
        for (auto it = items.begin(); it != items.end(); ++it) {
            T value{};
            read(it.value(), value, field + QLatin1Char('.') + it.key());
            put(it.key(), value);
        }
    }

    QJsonObject m_object;
    QString m_path;
    std::optional<Fault>& m_fault;
    QStringList m_known;
};

} // namespace interlude::payload
