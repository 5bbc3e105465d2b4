#include "model/shop/fold/fold.h"

#include <QSet>

namespace interlude {

namespace {

/// The first id that is there already or comes twice; empty when none does.
template <class There, class T> QString taken(const There& there, const QList<T>& coming, QString T::*id) {
    QSet<QString> seen;
    for (const T& one : coming) {
        if (there(one.*id) || seen.contains(one.*id))
            return one.*id;
        seen.insert(one.*id);
    }
    return {};
}

} // namespace

Fold::Trouble Fold::on(const act::Imported& x) {
    // Everything is looked at before the first change.
    if (const QString id = taken([this](const QString& s) { return spool(s); }, x.spools, &Spool::id); !id.isEmpty())
        return repeated(QStringLiteral("spool"), id);
    if (const QString id = taken([this](const QString& n) { return nozzle(n); }, x.nozzles, &Nozzle::serial); !id.isEmpty())
        return repeated(QStringLiteral("nozzle"), id);
    if (const QString id = taken([this](const QString& j) { return job(j); }, x.jobs, &Job::id); !id.isEmpty())
        return repeated(QStringLiteral("job"), id);
    for (const Spool& s : x.spools)
        keepSpool(s);
    for (const Nozzle& n : x.nozzles)
        keepNozzle(n);
    for (const Job& j : x.jobs)
        keepJob(j);
    return {};
}

} // namespace interlude
