#include "app/verbs/daily_backup.h"
#include "app/verbs/opened_shop.h"

#include "model/catalogue/reader.h"
#include "views/bench/bench.h"
#include "views/bench/remembered.h"
#include "views/look/look.h"
#include "views/window/fleet_chooser.h"
#include "views/window/main_window.h"

#include <QApplication>
#include <QFileInfo>
#include <QStandardPaths>

namespace interlude::app {

namespace {

/// Where a package puts the sample fleet; empty in a tree that was not installed.
QString installedExample() {
    return QStandardPaths::locate(QStandardPaths::GenericDataLocation, QStringLiteral("interlude/sample-fleet"),
                                  QStandardPaths::LocateDirectory);
}

/// Asks until a fleet opens; null when the person closes the question.
std::unique_ptr<Workbench> askFleet(FleetOptions& options, const SystemClock& clock) {
    QStringList reasons;
    for (;;) {
        FleetChooser chooser(installedExample());
        if (!reasons.isEmpty()) chooser.showReasons(options.folder, reasons);
        if (chooser.exec() != QDialog::Accepted) return nullptr;
        options.folder = chooser.folder();
        reasons.clear();
        const Tell tell = [&reasons](const QString& line) { reasons.append(line); };
        if (chooser.isNew() && newFleet(options.folder, tell) != 0) continue;
        if (auto workbench = openShop(options, Access::Write, clock, tell)) return workbench;
    }
}

} // namespace

int openWindow(const FleetOptions& named) {
    look::apply(*qApp, remembered()->value(QStringLiteral("window/theme")).toString() == QStringLiteral("dark")
                           ? look::Theme::Dark : look::Theme::Light);
    QApplication::setWindowIcon(look::programIcon());
    FleetOptions options = named;
    const SystemClock clock;
    // A person who named a folder sits at a terminal and reads there why it does not open.
    const auto workbench = named.folder.isEmpty() ? askFleet(options, clock) : openShop(options, Access::Write, clock);
    if (!workbench) return named.folder.isEmpty() ? 0 : 1;
    FleetChooser::remember(options.folder);
    Bench bench(*workbench);
    Problems ofFolder = readFleetFolder(options.folder).problems;
    MainWindow window(bench, ofFolder);
    DailyBackup backups(*workbench, options.folder, ledgerPath(options, workbench->catalogue()), clock);
    QObject::connect(&bench, &Bench::ticked, &backups, &DailyBackup::look);
    QObject::connect(&backups, &DailyBackup::problemsChanged, &window, [&] { window.setProblems(ofFolder + backups.problems()); });
    QObject::connect(&window, &MainWindow::reloadWanted, &window, [&] {
        const CatalogueReading reading = readFleetFolder(options.folder);
        ofFolder = reading.problems;
        window.setProblems(ofFolder + backups.problems());
        if (!reading.catalogue) return;
        if (const auto done = workbench->reload(reading.catalogue); !done) Q_EMIT bench.refused(done.error());
    });
    window.startTicking();
    window.show();
    return QApplication::exec();
}

} // namespace interlude::app
