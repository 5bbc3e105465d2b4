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
