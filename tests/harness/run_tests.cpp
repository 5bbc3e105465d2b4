#include "tests/harness/run_tests.h"

#include <QTest>

#include <vector>

namespace interlude::tests {

namespace {
struct Registered {
    QByteArray name;
    std::function<std::unique_ptr<QObject>()> make;
};
std::vector<Registered>& registry() {
    static std::vector<Registered> all;
    return all;
}
} // namespace

bool registerTest(const char* name, std::function<std::unique_ptr<QObject>()> make) {
    registry().push_back({name, std::move(make)});
    return true;
}

int runAll(int argc, char** argv) {
    std::vector<char*> passed(argv, argv + argc);
    QByteArray only;
    if (argc > 2 && QByteArray(argv[1]) == "--class") {
        only = argv[2];
        passed.erase(passed.begin() + 1, passed.begin() + 3);
    }
    int failures = 0;
    bool found = false;
    for (const Registered& test : registry()) {
        if (!only.isEmpty() && test.name != only) continue;
        found = true;
        failures += QTest::qExec(test.make().get(), static_cast<int>(passed.size()), passed.data());
    }
    if (!found) {
        qCritical("no test class%s", only.isEmpty() ? "" : QByteArray(" named " + only).constData());
        return 1;
    }
    return failures;
}

bool longRun() {
    return qEnvironmentVariableIsSet("INTERLUDE_LONG");
}

} // namespace interlude::tests
