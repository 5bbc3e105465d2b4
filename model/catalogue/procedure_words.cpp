#include "model/catalogue/procedure_words.h"

namespace interlude {

namespace {

using namespace procedure_words;

template <typename All, typename E> QString wordIn(const All& all, E value) {
    for (const auto& [e, w] : all)
        if (e == value) return QString::fromLatin1(w);
    return {};
}

template <typename All>
std::optional<typename All::value_type::first_type> valueIn(const All& all, const QString& word) {
    for (const auto& [e, w] : all)
        if (word == QLatin1String(w)) return e;
    return {};
}

} // namespace

QString word(Effect e) { return wordIn(effects, e); }
std::optional<Effect> effectFromWord(const QString& w) { return valueIn(effects, w); }
QString word(ScanTarget t) { return wordIn(scanTargets, t); }
std::optional<ScanTarget> scanTargetFromWord(const QString& w) { return valueIn(scanTargets, w); }
QString word(Sensor s) { return wordIn(sensors, s); }
std::optional<Sensor> sensorFromWord(const QString& w) { return valueIn(sensors, w); }
QString word(SignalWord s) { return wordIn(signalWords, s); }
std::optional<SignalWord> signalWordFromWord(const QString& w) { return valueIn(signalWords, w); }
QString word(Power p) { return wordIn(powers, p); }
QString word(Subject s) { return wordIn(subjects, s); }
std::optional<Subject> subjectFromWord(const QString& w) { return valueIn(subjects, w); }

Sensor sensorOf(Subject subject) {
    switch (subject) {
    case Subject::HeadPart: return Sensor::Head;
    case Subject::HeadSupport: return Sensor::SupportHead;
    case Subject::Platform: return Sensor::Platform;
    case Subject::Chamber:
    case Subject::Part:
    case Subject::Support: break;
    }
    return Sensor::Chamber;
}

QStringList conditionWords() {
    static const QStringList words{
        QStringLiteral("part-material"),     QStringLiteral("support-material"),
        QStringLiteral("part-nozzle"),       QStringLiteral("support-nozzle"),
        QStringLiteral("platform-cover"),    QStringLiteral("chamber-family"),
        QStringLiteral("hotter"),            QStringLiteral("cooler"),
        QStringLiteral("nozzle-first-use"),  QStringLiteral("long-idle"),
        QStringLiteral("clean-out=mandatory"), QStringLiteral("wiper-and-bin=mandatory"),
        QStringLiteral("purge=part"),        QStringLiteral("purge=support"),
        QStringLiteral("support=wanted"),    QStringLiteral("part-lying")};
    return words;
}

} // namespace interlude
