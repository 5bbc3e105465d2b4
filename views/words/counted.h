#pragma once
// Numbers of things as people say them: "1 page", "12 pages".

#include <QString>

namespace interlude::words {

QString pages(qint64 n);
QString rows(qint64 n);
QString events(qint64 n);
QString jobs(qint64 n);
QString spools(qint64 n);
QString nozzles(qint64 n);
QString people(qint64 n);

} // namespace interlude::words
