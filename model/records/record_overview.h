#pragma once
// What a record says about the whole session, gathered from its steps.

#include "model/records/record.h"

namespace interlude {

/// What an auditor must see before anything else; empty when the session was finished as it should be.
QString standingOf(const Catalogue& c, const SessionState& s);
/// How often what an auditor looks for happened: "overrides 1, corrections 2"; "nothing".
QString unusualOf(const SessionState& s);
/// Signal word and text of each caution once, the gravest first.
QStringList cautionsOf(const Changeover& work);
QList<RecordCaution> cautionsByStep(const Changeover& work);
/// Each instrument that a reading of the session names, in order of first use.
QList<RecordLine> instrumentsOf(const Catalogue& c, const SessionState& s);

} // namespace interlude
