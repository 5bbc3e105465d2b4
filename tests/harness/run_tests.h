#pragma once
// Several QtTest classes in one program: each test file registers its class, the program runs them all.

#include <QObject>
#include <QString>

#include <functional>
#include <memory>

namespace interlude::tests {

/// Remembers a test class; `make` is called once, when the class is run.
bool registerTest(const char* name, std::function<std::unique_ptr<QObject>()> make);

/// Runs every registered class, or only that named by the first argument `--class NAME`; returns the number of failures.
int runAll(int argc, char** argv);

/// True when the environment variable INTERLUDE_LONG is set: the slow loops then run at their full length.
bool longRun();

} // namespace interlude::tests

#define INTERLUDE_TEST(Class)                                                                                          \
    static const bool registered##Class =                                                                              \
        interlude::tests::registerTest(#Class, [] { return std::make_unique<Class>(); });
