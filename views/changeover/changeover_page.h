#pragma once

#include "views/bench/bench.h"

#include <QWidget>

namespace interlude {

class ChangeoverPage final : public QWidget {
    Q_OBJECT
public:
    explicit ChangeoverPage(Bench& bench, QWidget* parent = nullptr);

private:
    Bench& m_bench;
};

} // namespace interlude
