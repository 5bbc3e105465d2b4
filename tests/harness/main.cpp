#include "tests/harness/run_tests.h"

#include <QApplication>
#include <QStandardPaths>

int main(int argc, char** argv) {
    QApplication app(argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    return interlude::tests::runAll(argc, argv);
}
