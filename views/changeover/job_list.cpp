#include "views/changeover/job_list.h"

#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("job_list", text);
}

lists::Cell plain(const QString& text) {
    lists::Cell cell;
    cell.text = text;
    return cell;
}

lists::Cell setups(const Catalogue& catalogue, const Job& job) {
    QStringList all;
    for (const Variant& v : job.variants) {
        const QString s = words::setupWanted(catalogue, v.setup);
        if (!all.contains(s)) all.append(s);
    }
    lists::Cell cell = plain(all.join(tr(" or ")));
    cell.tip = cell.text;
    return cell;
}

lists::Cell due(const Bench& bench, const Job& job) {
    lists::Cell cell;
    cell.sort = lists::sortLast();
    if (!job.due) return cell;
    cell.text = bench.shortTime(*job.due);
    cell.tip = bench.longTime(*job.due);
    cell.sort = toMs(*job.due);
    if (*job.due < bench.now()) {
        cell.text = tr("%1 overdue").arg(cell.text);
        cell.tone = QStringLiteral("alarm");
    }
    return cell;
}

} // namespace

lists::ListModel<Job>* makeJobList(Bench& bench, QObject* parent) {
    const auto number = [](const QString& text, qint64 sort) {
        lists::Cell cell = plain(text);
        cell.sort = sort;
        return cell;
    };
    QList<lists::Column<Job>> columns;
    columns.append({tr("Job"), [](const Job& j) { return plain(j.id); }, false, 6});
    columns.append({tr("Due"), [&bench](const Job& j) { return due(bench, j); }, false, 12});
    columns.append({tr("Title"), [](const Job& j) { return plain(j.title); }, false, 14});
    columns.append({tr("Setup"), [&bench](const Job& j) { return setups(bench.catalogue(), j); }, false, 16});
    columns.append({tr("Qty"), [=](const Job& j) { return number(QString::number(j.quantity), j.quantity); }, true, 4});
    columns.append({tr("Late cost/h"),
                    [=](const Job& j) {
                        return number(words::number(j.lateCostPerHour.units()), j.lateCostPerHour.cents());
                    },
                    true, 9});
    return new lists::ListModel<Job>(columns, [](const Job& j) { return j.id; }, parent);
}

QList<Job> printableJobs(const Shop& shop) {
    QList<Job> out;
    for (const Job& j : shop.jobs())
        if (j.state == JobState::Open || j.state == JobState::Failed) out.append(j);
    return out;
}

} // namespace interlude
