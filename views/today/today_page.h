#pragma once

#include "views/bench/bench.h"

#include <QWidget>

namespace interlude {

class TodayPage final : public QWidget {
    Q_OBJECT
public:
    explicit TodayPage(Bench& bench, QWidget* parent = nullptr);

private:
    Bench& m_bench;
};

} // namespace interlude
