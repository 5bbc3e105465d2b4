#include "model/shop/payload/import_fields.h"
#include "model/shop/payload/job_fields.h"
#include "model/shop/payload/plan_fields.h"
#include "model/shop/payload/printer_fields.h"
#include "model/shop/payload/session_fields.h"
#include "model/shop/payload/stock_fields.h"

namespace interlude {

namespace {

template <class Act> Outcome<Happening> readAs(const QJsonObject& o) {
    Act act;
    std::optional<payload::Fault> fault;
    payload::Reader reader(o, {}, fault);
    payload::fields(reader, act);
    reader.finish();
    if (!fault)
        return Happening(std::move(act));
    const QString kind = QString::fromLatin1(Act::kind);
    return refusal(QStringLiteral("payload"),
                   QStringLiteral("An event `%1` is malformed: `%2` %3").arg(kind, fault->field, fault->what), {},
                   kind + QLatin1Char('.') + fault->field);
}

template <std::size_t I = 0> Outcome<Happening> readKind(const QString& kind, const QJsonObject& o) {
    if constexpr (I == std::variant_size_v<Happening>) {
        return refusal(QStringLiteral("payload"), QStringLiteral("An event is of a kind `%1` unknown here").arg(kind),
                       QStringLiteral("read this ledger with the version that wrote it"), kind);
    } else {
        using Act = std::variant_alternative_t<I, Happening>;
        return kind == QLatin1String(Act::kind) ? readAs<Act>(o) : readKind<I + 1>(kind, o);
    }
}

} // namespace

QString kindOf(const Happening& h) {
    return std::visit([](const auto& act) { return QString::fromLatin1(act.kind); }, h);
}

QJsonObject toPayload(const Happening& h) {
    return std::visit(
        [](const auto& act) {
            payload::Writer writer;
            payload::fields(writer, act);
            return writer.object();
        },
        h);
}

Outcome<Happening> fromPayload(const QString& kind, const QJsonObject& payload) {
    return readKind(kind, payload);
}

} // namespace interlude
