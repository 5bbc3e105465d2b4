#include "views/nozzles/nozzles_page.h"

namespace interlude {

NozzlesPage::NozzlesPage(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench) {
    static_cast<void>(m_bench);
}

} // namespace interlude
