#include "app/verbs/opened_shop.h"

#include "model/catalogue/reader.h"
#include "views/bench/bench.h"
#include "views/look/look.h"
#include "views/window/main_window.h"

#include <QApplication>
#include <QMessageBox>
#include <QSettings>
#include <QTimer>

namespace interlude::app {

int openWindow(const FleetOptions& options) {
    const SystemClock clock;
    const auto workbench = openShop(options, Access::Write, clock);
    if (!workbench) return 1;
    const QSettings settings;
    look::apply(*qApp, settings.value(QStringLiteral("theme")).toString() == QStringLiteral("dark") ? look::Theme::Dark
                                                                                                     : look::Theme::Light);
    Bench bench(*workbench);
    MainWindow window(bench);
    QObject::connect(&window, &MainWindow::reloadRequested, &window, [&] {
        const CatalogueReading reading = readFleetFolder(options.folder);
        window.showProblems(reading.problems);
        if (!reading.catalogue) return;
        if (const auto done = workbench->reload(reading.catalogue); !done) Q_EMIT bench.refused(done.error());
    });
    QTimer second;
    QObject::connect(&second, &QTimer::timeout, &bench, &Bench::tick);
    second.start(std::chrono::seconds(1));
    window.show();
    return QApplication::exec();
}

} // namespace interlude::app
