#pragma once
// One backup for each day on which the window was open, the last n of them kept; and whether the last backup is old.

#include "model/backup/backup.h"
#include "model/catalogue/catalogue.h"
#include "model/ledger/store.h"

#include <QDate>

namespace interlude {

/// How a fleet wants its daily backups.
struct DailyRule {
    QString folder; ///< absolute
    int keep = 7;   ///< 0: none are made
};

/// `backup-keep` and `backup-folder` of fleet.yaml; left out: beside the ledger, `<ledger>.backups`.
DailyRule dailyRule(const Fleet& fleet, const QString& fleetFolder, const QString& ledger);

/// The folder of that day's backup when it is to be made: empty when it is there or none are made.
QString dueDaily(const DailyRule& rule, const QString& fleetId, const QDate& day);
/// Makes the day's backup, remembers it beside the ledger, and deletes the oldest beyond those to be kept: only whole daily
/// backups of this fleet, and only after the new one was verified.
Outcome<BackupNote> makeDaily(const DailyRule& rule, const BackupSource& source, const QString& folder);

/// Days on which something was recorded after that event, counted up to `most`, in that zone.
int daysOfUseSince(const EventStore& store, qint64 event, const QTimeZone& zone, int most);

/// What the list of problems says when the last backup is old: never, or more than two days of use ago.
/// `last`: as remembered beside the ledger. Empty while all is well, and while there is no event.
std::optional<Problem> oldBackup(const EventStore& store, const std::optional<BackupNote>& last, const QTimeZone& zone);

} // namespace interlude
