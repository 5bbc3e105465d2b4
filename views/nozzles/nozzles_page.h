#pragma once

#include "views/bench/bench.h"

#include <QWidget>

namespace interlude {

class NozzlesPage final : public QWidget {
    Q_OBJECT
public:
    explicit NozzlesPage(Bench& bench, QWidget* parent = nullptr);

private:
    Bench& m_bench;
};

} // namespace interlude
