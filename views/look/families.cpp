#include "views/look/look.h"

#include "model/catalogue/catalogue.h"

namespace interlude::look {

int familyIndex(const Catalogue& catalogue, const QString& chamberFamily) {
    QStringList families;
    for (const Material& m : catalogue.materials)
        if (!families.contains(m.chamberFamily)) families.append(m.chamberFamily);
    return static_cast<int>(families.indexOf(chamberFamily));
}

} // namespace interlude::look
