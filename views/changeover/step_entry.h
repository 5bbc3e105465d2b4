#pragma once
// What has been scanned, answered and read for one step and is not yet confirmed; says what is still missing and makes
// the act. Knows no widget and no ledger; it does not judge a scan (matchScan does), only keeps it.

#include "model/session/guide.h"

namespace interlude {

/// The measured value that an only-below step closes on, as the ledger has it now.
struct MeasuredNow {
    bool fresh = false; ///< taken within 60 s and after the last interruption
    std::optional<Temperature> value;
    std::optional<Instant> at;
};
/// The newest reading of the step's sensor, with the model's word on its freshness.
MeasuredNow measuredNow(const SessionState& session, const StepTemplate& step, Instant now);
/// The serial of a used nozzle without history that this step mounts: its use so far is to be stated, as a number or
/// again as no history. `scanned` counts where it was scanned already, else what is expected. Empty: nothing to state.
NozzleSerial nozzleToState(const Shop& shop, const PlannedStep& step, const QStringList& scanned = {});

struct Missing {
    enum class What { Measure, Scan, Use, Answer, Reading };
    What what = What::Scan;
    int index = 0; ///< of the scan, answer or reading in the step's confirmation
    int time = 0;  ///< which of several readings
    QString text;  ///< "scan N-118", for the confirm button
};

class StepEntry {
public:
    StepEntry() = default;
    StepEntry(qint64 session, const PlannedStep& step);

    const StepTemplate& step() const { return m_step; }
    const QString& expectedScan(int index) const { return m_expected.at(index); }
    const std::optional<act::ScanDone>& scanAt(int index) const { return m_scans.at(static_cast<size_t>(index)); }
    const std::optional<bool>& answerAt(int index) const { return m_answers.at(static_cast<size_t>(index)); }
    const std::optional<act::ReadingDone>& readingAt(int index, int time) const;
    /// What was scanned, in the order of the scans; empty where nothing was yet.
    QStringList scanned() const;
    const std::optional<RunVolume>& use() const { return m_use; }
    const NozzleSerial& useWantedOf() const { return m_useOf; }
    /// Whether that reading lies outside its limits: it can then be confirmed only with an override.
    bool outside(int index, int time) const;

    /// What is missing, in the order in which it should be given.
    QList<Missing> missing(const MeasuredNow& measured) const;
    /// What the confirm button says: "Done", or "Done: scan N-118 first".
    QString confirmText(const MeasuredNow& measured) const;

    void wantUseOf(const NozzleSerial& serial) { m_useOf = serial; }
    void scan(int index, const QString& value, bool typed);
    void answer(int index, bool yes);
    void read(int index, int time, double value, Instant at);
    void state(const RunVolume& run) { m_use = run; }
    /// The confirmation; `measured` goes in where the step asks for it.
    act::StepConfirmed confirmation(const MeasuredNow& measured) const;

private:
    qint64 m_session = 0;
    StepTemplate m_step;
    QStringList m_expected;
    NozzleSerial m_useOf;
    std::vector<std::optional<act::ScanDone>> m_scans;
    std::vector<std::optional<bool>> m_answers;
    std::vector<std::vector<std::optional<act::ReadingDone>>> m_readings;
    std::optional<RunVolume> m_use;
};

} // namespace interlude
