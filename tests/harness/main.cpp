#include "tests/harness/run_tests.h"

#include <QApplication>
#include <QTemporaryDir>

int main(int argc, char** argv) {
    qputenv("LC_ALL", "C.UTF-8"); // paper and numbers as nowhere in particular, wherever the tests run
    // What the window remembers is of this program alone: others run beside it, and a person has settings of their own.
    const QTemporaryDir home;
    for (const char* folder : {"XDG_CONFIG_HOME", "XDG_DATA_HOME"}) qputenv(folder, home.path().toUtf8());
    QApplication app(argc, argv);
    return interlude::tests::runAll(argc, argv);
}
