#pragma once

#include "views/bench/bench.h"

#include <QWidget>

namespace interlude {

class RecordsPage final : public QWidget {
    Q_OBJECT
public:
    explicit RecordsPage(Bench& bench, QWidget* parent = nullptr);

private:
    Bench& m_bench;
};

} // namespace interlude
