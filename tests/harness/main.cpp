#include "tests/harness/run_tests.h"

#include <QApplication>
#include <QStandardPaths>

int main(int argc, char** argv) {
    qputenv("LC_ALL", "C.UTF-8"); // paper and numbers as nowhere in particular, wherever the tests run
    QApplication app(argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    return interlude::tests::runAll(argc, argv);
}
