#pragma once
// Makes the day's backup while the window is open, in a thread of its own so that nobody waits for it, and says what is
// wrong with the backups as problems for the window's list.

#include "model/backup/daily.h"
#include "model/shop/workbench.h"

#include <QObject>

class QThread;

namespace interlude::app {

class DailyBackup final : public QObject {
    Q_OBJECT
public:
    /// All are borrowed and outlive this. `machineClock` says the day: an example fleet's own clock stands elsewhere.
    DailyBackup(const Workbench& workbench, const QString& fleetFolder, const QString& ledger, const Clock& machineClock);
    /// Waits for a backup that is being made.
    ~DailyBackup() override;

    /// Begins the day's backup if it has not been tried yet; called now and then (each tick).
    void look();
    bool isBusy() const { return m_thread != nullptr; }
    const Problems& problems() const { return m_problems; }

Q_SIGNALS:
    void problemsChanged();

private:
    void begin(const DailyRule& rule, const QString& folder);
    void finished(const Outcome<BackupNote>& made);
    void judge();

    const Workbench& m_workbench;
    QString m_fleetFolder, m_ledger;
    const Clock& m_clock;
    std::unique_ptr<QThread> m_thread;
    QDate m_tried;
    std::optional<Finding> m_failure;
    Problems m_problems;
};

} // namespace interlude::app
