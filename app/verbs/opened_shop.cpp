#include "app/verbs/opened_shop.h"

#include "model/catalogue/reader.h"
#include "model/shop/snapshot/snapshot.h"

#include <QFile>
#include <QFileInfo>
#include <QSysInfo>

#include <cstdio>

namespace interlude::app {

void say(const QString& line) {
    std::fputs((line + QLatin1Char('\n')).toUtf8().constData(), stdout);
}

void complain(const QString& line) {
    std::fputs((line + QLatin1Char('\n')).toUtf8().constData(), stderr);
}

bool writeFile(const QString& file, const QByteArray& bytes) {
    QFile out(file);
    const bool open =
        file == QStringLiteral("-") ? out.open(stdout, QIODevice::WriteOnly) : out.open(QIODevice::WriteOnly);
    if (open && out.write(bytes) == bytes.size() && out.flush()) return true;
    complain(QStringLiteral("%1 cannot be written: %2").arg(file, out.errorString()));
    return false;
}

CataloguePtr readFleet(const QString& folder, const Tell& tell, Problems* problems) {
    const CatalogueReading reading = readFleetFolder(folder);
    if (problems) *problems = reading.problems;
    if (!reading.catalogue)
        for (const Problem& p : reading.problems) tell(p.text());
    return reading.catalogue;
}

QString ledgerPath(const FleetOptions& options, const Catalogue& catalogue, const Tell& tell) {
    const auto file = ledgerFile(options.ledger, catalogue.fleet.ledger, options.folder, catalogue.fleet.id);
    if (!file) {
        tell(sentence(file.error()));
        return {};
    }
    return *file;
}

std::unique_ptr<Workbench> openShop(const FleetOptions& options, Access access, const Clock& clock, const Tell& tell,
                                    const Reading& reading, Problems* problems) {
    const CataloguePtr catalogue = readFleet(options.folder, tell, problems);
    if (!catalogue) return nullptr;
    const QString file = ledgerPath(options, *catalogue, tell);
    if (file.isEmpty()) return nullptr;
    const QString station = QSysInfo::machineHostName();
    const bool onlyLook = access == Access::Look && QFileInfo::exists(file);
    auto store = access == Access::Look && !onlyLook
                     ? Outcome<std::unique_ptr<EventStore>>(makeMemoryStore(catalogue->fleet.id))
                     : openSqliteStore(file, catalogue->fleet.id, station, onlyLook);
    if (!store) {
        tell(sentence(store.error()));
        return nullptr;
    }
    const auto watch = std::make_shared<Watch>(Watch{reading});
    *store = watchedStore(std::move(*store), watch);
    const bool inMemory = access == Access::Look && !onlyLook;
    const QString snapshot = inMemory ? QString() : Snapshot::fileBeside(file);
    auto workbench = onlyLook ? Workbench::look(catalogue, std::move(*store), clock, snapshot)
                              : Workbench::open(catalogue, std::move(*store), clock, station, snapshot);
    watch->reading = nullptr; // what is read later is read by the way
    if (!workbench) {
        if (!watch->stopped) tell(sentence(workbench.error()));
        return nullptr;
    }
    return std::move(*workbench);
}

} // namespace interlude::app
