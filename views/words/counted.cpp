#include "views/words/counted.h"

#include <QCoreApplication>

namespace interlude::words {

namespace {
struct Said {
    Q_DECLARE_TR_FUNCTIONS(Counted)
};
} // namespace

QString pages(qint64 n) { return n == 1 ? Said::tr("1 page") : Said::tr("%1 pages").arg(n); }
QString rows(qint64 n) { return n == 1 ? Said::tr("1 row") : Said::tr("%1 rows").arg(n); }
QString events(qint64 n) { return n == 1 ? Said::tr("1 event") : Said::tr("%1 events").arg(n); }
QString jobs(qint64 n) { return n == 1 ? Said::tr("1 job") : Said::tr("%1 jobs").arg(n); }
QString spools(qint64 n) { return n == 1 ? Said::tr("1 spool") : Said::tr("%1 spools").arg(n); }
QString people(qint64 n) { return n == 1 ? Said::tr("1 person") : Said::tr("%1 people").arg(n); }
QString nozzles(qint64 n) { return n == 1 ? Said::tr("1 nozzle") : Said::tr("%1 nozzles").arg(n); }

} // namespace interlude::words
