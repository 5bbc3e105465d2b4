#pragma once
// When to call people: a countdown has ended, or hands are needed again where only a wait ran. Each is said once. Plain.

#include "model/session/guide.h"

namespace interlude {

class DueWatch {
public:
    /// What is new since the last look, in words; the first look says what is over already. `attended`: the printer at which
    /// somebody has acted since the last look, who need not be called there.
    QStringList look(const Shop& shop, Instant now, const PrinterId& attended = {});

private:
    QSet<QString> m_said;         ///< countdowns that ended, by session, step and due
    QMap<qint64, bool> m_waiting; ///< sessions in which only waits ran at the last look
};

} // namespace interlude
