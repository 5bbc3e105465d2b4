#include "views/records/records_page.h"

namespace interlude {

RecordsPage::RecordsPage(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench) {
    static_cast<void>(m_bench);
}

} // namespace interlude
