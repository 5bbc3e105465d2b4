#pragma once
// A finding is a value: how severe, which rule, why in plain words, what would be right, and where. Rules return
// findings and never touch the screen. Expected failure is a returned value (Outcome), not an exception.

#include <QList>
#include <QString>

#include <tl/expected.hpp>

namespace interlude {

enum class Severity {
    Notice,   ///< worth knowing
    Advice,   ///< recommended, a person may decide otherwise without a reason
    Warning,  ///< allowed, but something is likely to go wrong
    Mandatory,///< must be done as part of the changeover
    Refusal   ///< not allowed; `overridable` says whether a reason and a second person may lift it
};

struct Finding {
    Severity severity = Severity::Notice;
    QString rule;   ///< stable word of the rule, kebab-case, e.g. "clean-out", "nozzle-life"
    QString reason; ///< why, in plain words, a sentence
    QString remedy; ///< what would be right; may be empty
    QString place;  ///< what it is about: an id, a field, `file:line:column`; may be empty
    bool overridable = false;
};

using Findings = QList<Finding>;

/// A value or the finding that says why there is none.
template <typename T> using Outcome = tl::expected<T, Finding>;

/// A refusal to be returned from a function with an Outcome.
inline tl::unexpected<Finding> refusal(QString rule, QString reason, QString remedy = {}, QString place = {}) {
    return tl::unexpected<Finding>(
        Finding{Severity::Refusal, std::move(rule), std::move(reason), std::move(remedy), std::move(place), false});
}

/// The refusals among some findings; an act may go ahead only when there are none that stand.
inline Findings refusalsIn(const Findings& all) {
    Findings out;
    for (const Finding& f : all)
        if (f.severity == Severity::Refusal) out.append(f);
    return out;
}

/// "reason; remedy" for one line of text; the full stop of a reason gives way to the semicolon.
inline QString sentence(const Finding& f) {
    if (f.remedy.isEmpty()) return f.reason;
    const QString reason = f.reason.endsWith(QLatin1Char('.')) ? f.reason.chopped(1) : f.reason;
    return reason + QStringLiteral("; ") + f.remedy;
}

} // namespace interlude
