#pragma once
// Which step of a library is certain to be done before which, whatever is selected.

#include "model/catalogue/procedure.h"

#include <QHash>
#include <QSet>

namespace interlude {

class ProcedureOrder {
public:
    /// The library must be free of cycles; ids in `after` that do not exist are ignored.
    explicit ProcedureOrder(const QList<StepTemplate>& steps);

    /// `a` is done before `b` whenever both are selected. Certain if `b` comes after `a` by way of `after` (a step not selected
    /// passes its order through), if `a` is external and `b` not, or if both are hands-on, `a` stands first in the file, and
    /// everything that `a` has to wait for is itself certain to be done before `b`: only then can file order not be overtaken
    /// while `a` waits.
    bool certainlyBefore(int a, int b) const;

    /// Cycles through `after`, each as the ids in order with the first repeated at the end; one for each `after` that closes one.
    static QList<QStringList> cycles(const QList<StepTemplate>& steps);

private:
    const QList<StepTemplate>& m_steps;
    QHash<StepId, int> m_index;
    std::vector<QSet<int>> m_ancestors;
    mutable QHash<qint64, bool> m_known;
};

} // namespace interlude
