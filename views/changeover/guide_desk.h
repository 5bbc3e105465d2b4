#pragma once
// The hands of the guide without its face: which step is in hand, what has been entered for it, and the acts of an open
// session. Widgets show it and pass on what a person did; nothing here knows a widget.

#include "views/bench/bench.h"
#include "views/changeover/step_entry.h"

#include "model/session/guide.h"

namespace interlude {

class GuideDesk final : public QObject {
    Q_OBJECT
public:
    explicit GuideDesk(Bench& bench, QObject* parent = nullptr);

    Bench& bench() const { return m_bench; }
    /// The open session in hand, or null.
    const SessionState* session() const;
    qint64 number() const { return m_number; }
    const Guide& guide() const { return m_guide; }
    /// The step shown in the middle: chosen by hand, else the one to do now, else the wait that ends first; null when
    /// nothing is left.
    const PlannedStep* shown() const;
    bool isWaiting() const { return shown() && !shown()->step.handsOn(); }
    /// What runs down for the step in hand; null when nothing does.
    const Countdown* countdown() const;
    StepEntry* entry();
    MeasuredNow measured() const;
    QList<Missing> missing();
    QString confirmText();
    /// For a checklist entered late: when the step in hand was done; empty = now.
    std::optional<Instant> happenedAt() const;

    /// Takes a session in hand; 0 = none.
    void setSession(qint64 number);
    /// Shows another step that may be confirmed now; anything else returns to the step to do now.
    void choose(const StepId& step);
    void setLateTime(Instant t) { m_lateTime = t; }
    /// What stands against the time as it is typed: until it can be read nothing is recorded at all.
    void setLateTrouble(const std::optional<Finding>& trouble) { m_lateTrouble = trouble; }
    /// Computes anew from the shop and the clock; starts waits that may start.
    void refresh();

    /// A line from scanner or keys, given to whatever is missing; a scan that does not match never confirms.
    void enter(const QString& text, bool typed);
    /// Yes or No to the question in hand; No to a nozzle's use so far means no history.
    void answer(bool yes);
    void answerAt(int index, bool yes);
    void read(int index, int time, const QString& text);
    void measure(const QString& text);
    void state(const QString& text);
    /// Records a temperature that no step asks for: a point for the curve and a new basis for the countdown. False: refused, and why
    /// has been told.
    bool logTemperature(Sensor sensor, const QString& text);
    /// Confirms the step in hand when all is there; a wait that is not over by its prediction asks first.
    void confirm();
    /// Confirms a wait before its prediction has run down; `why` is how that is known, and is noted.
    std::optional<Finding> confirmEarly(const QString& why);
    /// Confirms it in spite of a refusal that a reason and a second person lift.
    std::optional<Finding> confirmWith(const act::Override& lifted);
    std::optional<Finding> skip(const act::Override& because);
    /// The step whose confirmation may be taken back; the finding says why none.
    Outcome<StepId> takeBackable() const;
    std::optional<Finding> takeBack(const QString& why);
    /// A problem was noted beside the steps.
    void tellNoted() { Q_EMIT accepted(tr("the problem is noted")); }

Q_SIGNALS:
    /// Something to redraw.
    void changed();
    /// Taken in; in words.
    void accepted(const QString& what);
    /// Not taken in; `scan`: a scan that does not match.
    void wrong(const interlude::Finding& finding, bool scan);
    /// The step in hand is refused, and a reason and a second person would lift it.
    void overrideWanted(const interlude::Finding& finding);
    /// The wait in hand still runs down.
    void earlyEndAsked(const interlude::Countdown& wait);

private:
    const Countdown* notOver() const;
    /// A finding when it was refused; a warning is told and stops nothing.
    std::optional<Finding> readTemperature(Sensor sensor, double celsius);
    bool give(const Missing& missing, const QString& text, bool typed, Finding& why);
    std::optional<int> scanThatMatches(const QList<Missing>& missing, const QString& text, Finding& why);
    void addPlanned(const PrinterId& here);
    void startWaits();
    std::optional<Finding> perform(const act::StepConfirmed& done);
    Bench& m_bench;
    qint64 m_number = 0;
    Guide m_guide;
    StepId m_chosen;
    std::optional<Instant> m_lateTime;
    std::optional<Finding> m_lateTrouble;
    QMap<QString, StepEntry> m_entries; ///< by "session/step"
    QStringList m_refusedStarts;        ///< waits that could not be started, so as not to try each second
    bool m_busy = false;
};

} // namespace interlude
