#pragma once
// One YAML value → one typed value. Each answers empty after having complained; a broken node is passed over in silence.

#include "model/catalogue/reading.h"

namespace interlude {

/// Allowed range of a number and the unit that messages name. Not-a-number and infinity are never inside.
struct Range {
    double min = 0, max = 0;
    QString unit;
    bool aboveMin = false; ///< min itself is not allowed
};

namespace range {
Range celsius();
Range minutes();     ///< 0 to 100,000
Range someMinutes(); ///< the same without 0
Range money();
Range cm3();
Range someCm3();
} // namespace range

/// A word of a closed list with its value.
template <typename T> struct WordFor {
    QString word;
    T value;
};
/// All words of one of the lists in `procedure_words.h`.
template <typename All> auto wordsIn(const All& list) {
    QList<WordFor<typename All::value_type::first_type>> out;
    for (const auto& [value, word] : list) out.append({QString::fromLatin1(word), value});
    return out;
}

/// `name` is the key as messages show it.
std::optional<QString> scalarOf(Reading& r, const YamlNode& n, const QString& name);
/// Text of at most `longest` characters, not empty, without surrounding space.
std::optional<QString> textOfValue(Reading& r, const YamlNode& n, const QString& name, int longest);
/// Letters a–z, digits, `-`, `_` and `.`, beginning with a letter or digit, at most 64: what every scanner carries.
std::optional<QString> idOf(Reading& r, const YamlNode& n, const QString& name);
std::optional<double> numberOf(Reading& r, const YamlNode& n, const QString& name, const Range& range);
std::optional<int> wholeOf(Reading& r, const YamlNode& n, const QString& name, const Range& range);
std::optional<bool> yesNoOf(Reading& r, const YamlNode& n, const QString& name);
/// 2026-03-02
std::optional<QDate> dateOf(Reading& r, const YamlNode& n, const QString& name);
/// 06:30; with `endOfDay` also 24:00, as midnight.
std::optional<QTime> clockTimeOf(Reading& r, const YamlNode& n, const QString& name, bool endOfDay = false);
/// 2026-03-02T06:30 in the fleet's zone; with `dayAlone` also 2026-03-02, which is the start of that day.
std::optional<Instant> localTimeOf(Reading& r, const YamlNode& n, const QString& name, bool dayAlone = false);
/// Position in `words`, or empty after having complained with a suggestion.
std::optional<int> choiceOf(Reading& r, const YamlNode& n, const QString& name, const QStringList& words);

/// The moment of a local time, empty when clocks jump over it. Of a time that comes twice, the first.
std::optional<Instant> momentInZone(const QDate& date, const QTime& time, const QTimeZone& zone);

} // namespace interlude
