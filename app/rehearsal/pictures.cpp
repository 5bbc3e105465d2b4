#include "app/rehearsal/pictures.h"

#include "views/bench/bench.h"
#include "views/look/look.h"
#include "views/today/wall_view.h"
#include "views/window/main_window.h"

#include <QApplication>
#include <QPixmap>

namespace interlude::app {

namespace {
constexpr double wallPixelsPerMm = 96 / 25.4; ///< of a usual desktop screen
} // namespace

Pictures::Pictures(Workbench& bench, QString who, QDir dir)
    : m_bench(bench), m_who(std::move(who)), m_dir(std::move(dir)) {}

Outcome<int> Pictures::take(const QString& moment, const PrinterId& printer) {
    int taken = 0;
    for (const look::Theme theme : {look::Theme::Light, look::Theme::Dark}) {
        look::apply(*qApp, theme);
        const QString themeName = theme == look::Theme::Light ? QStringLiteral("light") : QStringLiteral("dark");
        Bench bench(m_bench);
        MainWindow window(bench);
        bench.signIn(m_who);
        window.show();
        for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
            window.resize(size);
            for (const QString& tab : MainWindow::tabNames()) {
                window.showTab(tab);
                if (tab == QStringLiteral("changeover")) Q_EMIT bench.openChangeover(printer);
                bench.tick();
                // What is shown anew asks for room once it is shown, and those around it after that.
                for (int i = 0; i < 3; ++i) QApplication::processEvents();
                const QString file = m_dir.filePath(QStringLiteral("%1-%2-%3-%4x%5.png")
                                                        .arg(moment, tab, themeName)
                                                        .arg(size.width()).arg(size.height()));
                if (!window.grab().save(file))
                    return refusal(QStringLiteral("picture"), QStringLiteral("%1 cannot be written").arg(file));
                ++taken;
            }
            WallView wall(bench, wallPixelsPerMm);
            wall.resize(size);
            const QString file = m_dir.filePath(QStringLiteral("%1-wall-%2-%3x%4.png").arg(moment, themeName)
                                                    .arg(size.width()).arg(size.height()));
            if (!wall.grab().save(file))
                return refusal(QStringLiteral("picture"), QStringLiteral("%1 cannot be written").arg(file));
            ++taken;
        }
    }
    return taken;
}

} // namespace interlude::app
