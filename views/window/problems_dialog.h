#pragma once
// The list of problems of the fleet folder: what is wrong, where, what would be right.

#include "model/catalogue/problem.h"

#include <QDialog>

namespace interlude {

class ProblemsDialog final : public QDialog {
    Q_OBJECT
public:
    explicit ProblemsDialog(const Problems& problems, QWidget* parent = nullptr);
};

} // namespace interlude
