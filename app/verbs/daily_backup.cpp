#include "app/verbs/daily_backup.h"

#include <QThread>

namespace interlude::app {

DailyBackup::DailyBackup(const Workbench& workbench, const QString& fleetFolder, const QString& ledger, const Clock& machineClock)
    : m_workbench(workbench), m_fleetFolder(fleetFolder), m_ledger(ledger), m_clock(machineClock) {}

DailyBackup::~DailyBackup() {
    if (m_thread) m_thread->wait();
}

void DailyBackup::look() {
    const Fleet& fleet = m_workbench.catalogue().fleet;
    const QDate today = toZone(m_clock.now(), fleet.zone).date();
    if (m_thread || m_tried == today) return;
    m_tried = today;
    m_failure.reset();
    const DailyRule rule = dailyRule(fleet, m_fleetFolder, m_ledger);
    const QString folder = dueDaily(rule, fleet.id, today);
    if (folder.isEmpty())
        judge();
    else
        begin(rule, folder);
}

void DailyBackup::begin(const DailyRule& rule, const QString& folder) {
    const BackupSource source{m_workbench.catalogue().fleet.id, m_ledger, m_workbench.catalogue().files, photosBeside(m_ledger), m_clock.now()};
    auto made = std::make_shared<Outcome<BackupNote>>();
    m_thread.reset(QThread::create([=] { *made = makeDaily(rule, source, folder); }));
    connect(m_thread.get(), &QThread::finished, this, [this, made] { finished(*made); }, Qt::QueuedConnection);
    m_thread->start(QThread::LowPriority);
}

void DailyBackup::finished(const Outcome<BackupNote>& made) {
    m_thread->wait();
    m_thread.reset();
    if (!made) m_failure = made.error();
    judge();
}

void DailyBackup::judge() {
    const Problems before = m_problems;
    m_problems.clear();
    if (m_failure) {
        Problem p;
        p.file = QStringLiteral("backup");
        p.warning = true;
        p.what = QStringLiteral("today's backup could not be made: %1").arg(m_failure->reason);
        p.right = m_failure->remedy;
        m_problems.append(p);
    }
    if (const auto old = oldBackup(m_workbench.store(), lastBackup(m_ledger), m_workbench.catalogue().fleet.zone)) m_problems.append(*old);
    const auto texts = [](const Problems& all) {
        QStringList out;
        for (const Problem& p : all) out.append(p.text());
        return out;
    };
    if (texts(before) != texts(m_problems)) Q_EMIT problemsChanged();
}

} // namespace interlude::app
