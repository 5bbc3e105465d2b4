#include "app/verbs/opened_shop.h"

#include "model/catalogue/reader.h"
#include "views/bench/bench.h"
#include "views/look/look.h"
#include "views/window/main_window.h"

#include <QApplication>
#include <QSettings>

namespace interlude::app {

int openWindow(const FleetOptions& options) {
    const SystemClock clock;
    const auto workbench = openShop(options, Access::Write, clock);
    if (!workbench) return 1;
    const QSettings settings;
    look::apply(*qApp, settings.value(QStringLiteral("theme")).toString() == QStringLiteral("dark") ? look::Theme::Dark
                                                                                                     : look::Theme::Light);
    Bench bench(*workbench);
    MainWindow window(bench, readFleetFolder(options.folder).problems);
    QObject::connect(&window, &MainWindow::reloadWanted, &window, [&] {
        const CatalogueReading reading = readFleetFolder(options.folder);
        window.setProblems(reading.problems);
        if (!reading.catalogue) return;
        if (const auto done = workbench->reload(reading.catalogue); !done) Q_EMIT bench.refused(done.error());
    });
    window.startTicking();
    window.show();
    return QApplication::exec();
}

} // namespace interlude::app
