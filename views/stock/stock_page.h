#pragma once

#include "views/bench/bench.h"

#include <QWidget>

namespace interlude {

class StockPage final : public QWidget {
    Q_OBJECT
public:
    explicit StockPage(Bench& bench, QWidget* parent = nullptr);

private:
    Bench& m_bench;
};

} // namespace interlude
