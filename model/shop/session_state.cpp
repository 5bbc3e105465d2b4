#include "model/shop/session_state.h"

namespace interlude {

const StepProgress& SessionState::progress(const StepId& id) const {
    static const StepProgress pending;
    const auto found = steps.constFind(id);
    return found == steps.constEnd() ? pending : *found;
}

bool SessionState::settled(const StepId& id) const {
    const StepState state = progress(id).state;
    return state == StepState::Done || state == StepState::Skipped;
}

const PlannedStep* SessionState::doneStep(Effect effect) const {
    for (const PlannedStep& s : changeover.steps)
        if (s.step.effect == effect && progress(s.step.id).state == StepState::Done)
            return &s;
    return nullptr;
}

SessionSummary summaryOf(const SessionState& s) {
    const TransitionRequest& request = s.changeover.transition.request;
    SessionSummary out;
    out.number = s.number;
    out.printer = s.printer;
    out.job = request.job;
    out.from = request.now.part.loaded;
    out.to = request.wanted.part;
    out.phase = s.phase;
    out.started = s.started;
    out.ended = s.ended;
    out.startedBy = s.startedBy;
    out.enteredLate = s.enteredLate;
    qsizetype overrides = s.overrides.size();
    for (const StepProgress& p : s.steps) {
        overrides += p.confirmed.overrides.size();
        out.skipped += p.skipped ? 1 : 0;
    }
    out.overrides = static_cast<int>(overrides);
    out.corrections = static_cast<int>(s.corrections.size());
    out.problems = static_cast<int>(s.problems.size());
    return out;
}

bool SessionState::leavesMixed() const {
    // Taking the part out, cleaning and starting leave the dress of the printer as it is; the rest belongs together.
    bool someDone = false, someLeft = false;
    for (const PlannedStep& s : changeover.steps) {
        switch (s.step.effect) {
        case Effect::None:
        case Effect::RemovePart:
        case Effect::StartPrint:
            continue;
        case Effect::CleanOut:
        case Effect::ClearWiper:
            break;
        default:
            someDone = someDone || progress(s.step.id).state == StepState::Done;
        }
        someLeft = someLeft || !settled(s.step.id);
    }
    return someDone && someLeft;
}

} // namespace interlude
