#include "views/changeover/changeover_page.h"

namespace interlude {

ChangeoverPage::ChangeoverPage(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench) {
    static_cast<void>(m_bench);
}

} // namespace interlude
