#include "model/catalogue/procedure.h"

#include <iterator>
#include <utility>

namespace interlude {

namespace {

template <typename E> using Word = std::pair<E, const char*>;

constexpr Word<Effect> effects[] = {
    {Effect::None, "none"},
    {Effect::RemovePart, "remove-part"},
    {Effect::UnloadPart, "unload-part"},
    {Effect::UnloadSupport, "unload-support"},
    {Effect::RemoveNozzlePart, "remove-nozzle-part"},
    {Effect::RemoveNozzleSupport, "remove-nozzle-support"},
    {Effect::MountNozzlePart, "mount-nozzle-part"},
    {Effect::MountNozzleSupport, "mount-nozzle-support"},
    {Effect::LoadPart, "load-part"},
    {Effect::LoadSupport, "load-support"},
    {Effect::PurgePart, "purge-part"},
    {Effect::PurgeSupport, "purge-support"},
    {Effect::FitCover, "fit-cover"},
    {Effect::CleanOut, "clean-out"},
    {Effect::ClearWiper, "clear-wiper"},
    {Effect::Align, "align"},
    {Effect::StartPrint, "start-print"},
};

constexpr Word<ScanTarget> scanTargets[] = {
    {ScanTarget::Printer, "printer"},
    {ScanTarget::NozzleOutPart, "nozzle-out-part"},
    {ScanTarget::NozzleOutSupport, "nozzle-out-support"},
    {ScanTarget::NozzleInPart, "nozzle-in-part"},
    {ScanTarget::NozzleInSupport, "nozzle-in-support"},
    {ScanTarget::SpoolOutPart, "spool-out-part"},
    {ScanTarget::SpoolOutSupport, "spool-out-support"},
    {ScanTarget::SpoolInPart, "spool-in-part"},
    {ScanTarget::SpoolInSupport, "spool-in-support"},
    {ScanTarget::PlatformCover, "platform-cover"},
    {ScanTarget::Place, "place"},
};

constexpr Word<Sensor> sensors[] = {
    {Sensor::Chamber, "chamber"}, {Sensor::Head, "head"}, {Sensor::SupportHead, "support-head"}, {Sensor::Platform, "platform"}};

constexpr Word<SignalWord> signalWords[] = {{SignalWord::Notice, "notice"},
                                            {SignalWord::Caution, "caution"},
                                            {SignalWord::Warning, "warning"},
                                            {SignalWord::Danger, "danger"}};

constexpr Word<Power> powers[] = {
    {Power::NoMatter, "no-matter"}, {Power::On, "on"}, {Power::Off, "off"}, {Power::Isolated, "isolated"}};

constexpr Word<Subject> subjects[] = {
    {Subject::Chamber, "chamber"},   {Subject::HeadPart, "head-part"}, {Subject::HeadSupport, "head-support"},
    {Subject::Platform, "platform"}, {Subject::Part, "part"},          {Subject::Support, "support"}};

template <typename E, std::size_t N> QString wordIn(const Word<E> (&all)[N], E value) {
    for (const auto& [e, w] : all)
        if (e == value) return QString::fromLatin1(w);
    return {};
}

template <typename E, std::size_t N> std::optional<E> valueIn(const Word<E> (&all)[N], const QString& word) {
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
