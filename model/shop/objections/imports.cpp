#include "model/shop/objections/asking.h"

#include <QSet>

namespace interlude {

namespace {

/// Each entry is judged like one that comes in by itself, and none may come twice.
template <class Opening, class T> void askEach(Asking& a, const QList<T>& all, QString T::*id, const QString& noun) {
    QSet<QString> seen;
    for (const T& one : all) {
        object(a, Opening{one});
        if (seen.contains(one.*id))
            a.refuse("duplicate", QStringLiteral("The %1 %2 is there twice").arg(noun, one.*id),
                     QStringLiteral("import it once"), one.*id);
        seen.insert(one.*id);
    }
}

} // namespace

void object(Asking& a, const act::Imported& x) {
    if (x.spools.isEmpty() && x.nozzles.isEmpty() && x.jobs.isEmpty())
        a.refuse("import-empty", QStringLiteral("There is nothing to import"), QStringLiteral("choose a file with new entries"));
    askEach<act::SpoolOpening>(a, x.spools, &Spool::id, QStringLiteral("spool"));
    askEach<act::NozzleOpening>(a, x.nozzles, &Nozzle::serial, QStringLiteral("nozzle"));
    askEach<act::JobOpening>(a, x.jobs, &Job::id, QStringLiteral("job"));
}

} // namespace interlude
