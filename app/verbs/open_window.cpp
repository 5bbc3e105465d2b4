#include "app/verbs/daily_backup.h"
#include "app/verbs/opened_shop.h"

#include "model/catalogue/reader.h"
#include "views/bench/bench.h"
#include "views/bench/remembered.h"
#include "views/look/look.h"
#include "views/look/undressed.h"
#include "views/window/fleet_chooser.h"
#include "views/records/bundle_dialog.h"
#include "views/window/main_window.h"
#include "views/window/opening_panel.h"

#include <QApplication>
#include <QFileInfo>
#include <QStandardPaths>

#include <unistd.h>

namespace interlude::app {

namespace {

/// Where a package puts the sample fleet; empty in a tree that was not installed.
QString installedExample() {
    return QStandardPaths::locate(QStandardPaths::GenericDataLocation, QStringLiteral("interlude/sample-fleet"),
                                  QStandardPaths::LocateDirectory);
}

struct Opened {
    std::unique_ptr<Workbench> workbench; ///< null when it was not opened
    Problems ofFolder;
    bool stopped = false; ///< by the person
};

/// With a panel while a long ledger is read.
Opened openSeen(const FleetOptions& options, const SystemClock& clock, const Tell& tell) {
    OpeningPanel panel;
    Opened o;
    const Reading reading = [&panel, said = readingOnStandardError()](qint64 read, qint64 all) {
        return said(read, all) && panel.show(read, all);
    };
    o.workbench = openShop(options, Access::Write, clock, tell, reading, &o.ofFolder);
    o.stopped = panel.wasStopped();
    return o;
}

/// Nobody reads the standard error of a program started from an icon or a file manager.
bool isReadInTerminal() {
    return isatty(STDERR_FILENO) == 1 || QGuiApplication::platformName() == QStringLiteral("offscreen");
}

/// Asks until a fleet opens; null when the person closes the question. `reasons`: why `options.folder` did not open.
Opened askFleet(FleetOptions& options, const SystemClock& clock, QStringList reasons = {}) {
    for (;;) {
        FleetChooser chooser(installedExample());
        if (!reasons.isEmpty()) chooser.showReasons(options.folder, reasons);
        if (chooser.exec() != QDialog::Accepted) return {};
        options.folder = chooser.folder();
        reasons.clear();
        const Tell tell = [&reasons](const QString& line) { reasons.append(line); };
        if (chooser.isNew() && newFleet(options.folder, tell) != 0) continue;
        if (Opened opened = openSeen(options, clock, tell); opened.workbench) return opened;
    }
}

/// The fleet that was named, or one that is asked for.
Opened openFleet(FleetOptions& options, const SystemClock& clock) {
    if (options.folder.isEmpty()) return askFleet(options, clock);
    QStringList reasons;
    Opened opened = openSeen(options, clock, [&reasons](const QString& line) {
        complain(line);
        reasons.append(line);
    });
    if (opened.workbench || opened.stopped || isReadInTerminal()) return opened;
    return askFleet(options, clock, reasons);
}

} // namespace

int openWindow(const FleetOptions& named) {
    look::apply(*qApp, remembered()->value(QStringLiteral("window/theme")).toString() == QStringLiteral("dark")
                           ? look::Theme::Dark : look::Theme::Light);
    QApplication::setWindowIcon(look::programIcon());
    if (isBundle(named.folder)) return BundleDialog(checkBundle(named.folder)).exec() == QDialog::Accepted ? 0 : 1;
    FleetOptions options = named;
    const SystemClock clock;
    auto [workbench, problems, stopped] = openFleet(options, clock);
    if (!workbench) return named.folder.isEmpty() || stopped ? 0 : 1;
    FleetChooser::remember(options.folder);
    Bench bench(*workbench);
    Problems ofFolder = problems;
    std::optional<look::Undressed> building(std::in_place, *qApp);
    MainWindow window(bench, ofFolder);
    building.reset();
    DailyBackup backups(*workbench, options.folder, ledgerPath(options, workbench->catalogue()), clock);
    QObject::connect(&bench, &Bench::ticked, &backups, &DailyBackup::look);
    QObject::connect(&backups, &DailyBackup::problemsChanged, &window, [&] { window.setProblems(ofFolder + backups.problems()); });
    QObject::connect(&window, &MainWindow::reloadWanted, &window, [&, &workbench = *workbench] {
        const CatalogueReading reading = readFleetFolder(options.folder);
        ofFolder = reading.problems;
        window.setProblems(ofFolder + backups.problems());
        if (!reading.catalogue)
            return Q_EMIT bench.refused(refusal(QStringLiteral("reload"), QObject::tr("The fleet folder has errors and was not reloaded"),
                                                QObject::tr("correct what “Problems” below names, then press F5")).value());
        if (const auto done = workbench.reload(reading.catalogue); !done) Q_EMIT bench.refused(done.error());
    });
    window.startTicking();
    window.show();
    return QApplication::exec();
}

} // namespace interlude::app
