// Every kind of happening to JSON and back, and everything that can be wrong with a payload.

#include "model/ledger/canonical_json.h"
#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

#include <QJsonArray>

using namespace interlude;
using namespace interlude::tests;

namespace {

struct Damage {
    QString field; ///< as the finding names it
    QJsonValue payload;
};

QJsonValue wrongTypeFor(const QJsonValue& v) {
    // A text in place of anything but a text, a fraction in place of a text: neither is allowed anywhere.
    return v.isString() ? QJsonValue(0.5) : QJsonValue(QStringLiteral("?"));
}

/// Members that earlier versions did not write: without them the payload reads all the same.
const QStringList cameLater{QStringLiteral("photos")};

/// The value with each of its members, at any depth, removed, of another type, or joined by a stranger.
QList<Damage> damages(const QJsonValue& v, const QString& path, bool freeKeys) {
    QList<Damage> out;
    const auto wrap = [&](const QList<Damage>& inner, const std::function<QJsonValue(const QJsonValue&)>& put) {
        for (const Damage& d : inner)
            out.append({d.field, put(d.payload)});
    };
    if (v.isObject()) {
        const QJsonObject o = v.toObject();
        const QString dot = path.isEmpty() ? QString() : path + QLatin1Char('.');
        for (auto it = o.begin(); it != o.end(); ++it) {
            QJsonObject without = o, wrong = o;
            without.remove(it.key());
            wrong.insert(it.key(), wrongTypeFor(it.value()));
            if (!freeKeys && !cameLater.contains(it.key()))
                out.append({dot + it.key(), without});
            out.append({dot + it.key(), wrong});
            const bool map = it.key() == QStringLiteral("files") || it.key() == QStringLiteral("mounted") ||
                             it.key() == QStringLiteral("print-on-min") || it.key() == QStringLiteral("consumables");
            wrap(damages(it.value(), dot + it.key(), map), [&](const QJsonValue& inner) {
                QJsonObject damaged = o;
                damaged.insert(it.key(), inner);
                return damaged;
            });
        }
        if (!freeKeys) {
            QJsonObject more = o;
            more.insert(QStringLiteral("stranger"), 1);
            out.append({dot + QStringLiteral("stranger"), more});
        }
    } else if (v.isArray()) {
        const QJsonArray a = v.toArray();
        for (qsizetype i = 0; i < std::min<qsizetype>(a.size(), 2); ++i) {
            const QString item = QStringLiteral("%1[%2]").arg(path).arg(i);
            QJsonArray wrong = a;
            wrong[i] = wrongTypeFor(a[i]);
            out.append({item, wrong});
            wrap(damages(a[i], item, false), [&](const QJsonValue& inner) {
                QJsonArray damaged = a;
                damaged[i] = inner;
                return damaged;
            });
        }
    }
    return out;
}

} // namespace

class PayloadTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyKindIsInTheFixture() {
        QStringList kinds;
        for (const Happening& h : everyKind())
            kinds.append(kindOf(h));
        QCOMPARE(static_cast<std::size_t>(kinds.size()), std::variant_size_v<Happening>);
        QCOMPARE(QSet<QString>(kinds.begin(), kinds.end()).size(), kinds.size());
    }

    void roundTrips() {
        for (const Happening& h : everyKind()) {
            const QJsonObject payload = toPayload(h);
            const Outcome<Happening> back = fromPayload(kindOf(h), payload);
            QVERIFY2(back, back ? "" : qPrintable(back.error().reason));
            QCOMPARE(back->index(), h.index());
            QCOMPARE(toPayload(*back), payload);
        }
    }

    void survivesTheLedgersBytes() {
        for (const Happening& h : everyKind()) {
            const auto bytes = canonicalJson(QJsonValue(toPayload(h)));
            QVERIFY2(bytes, bytes ? "" : qPrintable(kindOf(h) + bytes.error().reason));
            const QJsonObject read = QJsonDocument::fromJson(*bytes).object();
            const Outcome<Happening> back = fromPayload(kindOf(h), read);
            QVERIFY2(back, back ? "" : qPrintable(back.error().reason));
            QCOMPARE(toPayload(*back), toPayload(h));
        }
    }

    void fieldsKeepTheirValues() {
        const auto weighed =
            fromPayload(QStringLiteral("spool-weighed"), {{QStringLiteral("spool"), QStringLiteral("A-1")},
                                                          {QStringLiteral("gross-mg"), 900000},
                                                          {QStringLiteral("tare-mg"), QJsonValue()},
                                                          {QStringLiteral("se-mg"), 2000}});
        QVERIFY(weighed);
        const auto& x = std::get<act::SpoolWeighed>(*weighed);
        QCOMPARE(x.gross.milligrams(), 900000);
        QVERIFY(!x.tare);
        QCOMPARE(x.se.milligrams(), 2000);
        const QList<Happening> all = everyKind();
        const auto one = std::find_if(all.begin(), all.end(), [](const Happening& h) {
            return std::holds_alternative<act::StepConfirmed>(h);
        });
        QVERIFY(one != all.end());
        const auto confirmed = fromPayload(QStringLiteral("step-confirmed"), toPayload(*one));
        const auto& c = std::get<act::StepConfirmed>(*confirmed);
        QCOMPARE(c.readings.first().thousandths, -50);
        QCOMPARE(c.measured->milliCelsius(), 44000);
        QCOMPARE(toMs(*c.measuredAt), toMs(interlude::tests::at(3)));
        QVERIFY(c.useSoFar && !c.useSoFar->known);
        QVERIFY(c.scans.first().typed && c.enteredLate);
    }

    void malformedIsNamed() {
        int tried = 0;
        for (const Happening& h : everyKind()) {
            for (const Damage& d : damages(toPayload(h), {}, false)) {
                const Outcome<Happening> back = fromPayload(kindOf(h), d.payload.toObject());
                QVERIFY2(!back, qPrintable(kindOf(h) + QLatin1Char(' ') + d.field));
                QCOMPARE(back.error().place, QString(kindOf(h) + QLatin1Char('.') + d.field));
                QVERIFY(back.error().reason.contains(kindOf(h)));
                ++tried;
            }
        }
        QVERIFY2(tried > 600, qPrintable(QString::number(tried)));
    }

    void numbersOutOfRangeAreRefused() {
        const QJsonObject good = toPayload(act::ProgramStarted{});
        QVERIFY(fromPayload(QStringLiteral("program-started"), good));
        const auto weighed = [](const QJsonValue& gross) {
            QJsonObject o = toPayload(act::SpoolWeighed{});
            o.insert(QStringLiteral("gross-mg"), gross);
            return fromPayload(QStringLiteral("spool-weighed"), o);
        };
        const qint64 most = (qint64(1) << 53) - 1;
        QVERIFY(weighed(most));
        QVERIFY(!weighed(most + 1));
        QVERIFY(!weighed(-most - 1));
        QVERIFY(!weighed(1.5));
        QVERIFY(!weighed(1e300));
        QVERIFY(!weighed(QJsonValue()));
        QJsonObject issued = toPayload(act::RecordIssued{});
        issued.insert(QStringLiteral("revision"), qint64(1) << 40); // more than an int
        QVERIFY(!fromPayload(QStringLiteral("record-issued"), issued));
        QJsonObject dried = toPayload(act::SpoolDried{});
        dried.insert(QStringLiteral("at-mc"), qint64(1) << 33); // more than a temperature
        QVERIFY(!fromPayload(QStringLiteral("spool-dried"), dried));
    }

    void unknownKindsAndWordsAreRefused() {
        QCOMPARE(fromPayload(QStringLiteral("moon-phase"), {}).error().place, QStringLiteral("moon-phase"));
        QJsonObject o = toPayload(act::SpoolLoaded{});
        o.insert(QStringLiteral("position"), QStringLiteral("middle"));
        const auto refused = fromPayload(QStringLiteral("spool-loaded"), o);
        QVERIFY(!refused);
        QVERIFY2(refused.error().reason.contains(QStringLiteral("part, support")), qPrintable(refused.error().reason));
    }
};

INTERLUDE_TEST(PayloadTest)
#include "payload_test.moc"
