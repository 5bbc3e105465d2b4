#include "views/look/tabular.h"

namespace interlude::look {

QStringList textFamilies() {
    return {QStringLiteral("Inter"), QStringLiteral("DejaVu Sans")};
}

} // namespace interlude::look
