#pragma once
// A fuzz target: one function of bytes that must end, whatever they are, and whose promises hold. Built with clang and
// INTERLUDE_FUZZING each target is a libFuzzer program; in the usual build the same targets replay the corpora.

#include <QByteArray>
#include <QCoreApplication>
#include <QString>

#include <cstdint>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>

namespace interlude::tests {

/// A promise of the code under test; broken it ends the program, which both builds report with the input.
inline void promise(bool holds, const char* what) {
    if (!holds) qFatal("a promise is broken: %s", what);
}
/// The same with what was seen.
inline void promise(bool holds, const char* what, const QString& seen) {
    if (!holds) qFatal("a promise is broken: %s: %s", what, qPrintable(seen));
}

/// name → target, of the usual build.
using Target = std::function<void(const QByteArray&)>;
inline std::map<std::string, Target>& targets() {
    static std::map<std::string, Target> all;
    return all;
}

} // namespace interlude::tests

#ifdef INTERLUDE_FUZZING
#define INTERLUDE_FUZZ_TARGET(name)                                                                                    \
    static void name##Target(const QByteArray& input);                                                                 \
    extern "C" int LLVMFuzzerInitialize(int*, char***) {                                                               \
        static int argc = 1;                                                                                           \
        static char program[] = #name;                                                                                 \
        static char* argv[] = {program, nullptr};                                                                      \
        new QCoreApplication(argc, argv);                                                                              \
        return 0;                                                                                                      \
    }                                                                                                                  \
    extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {                                          \
        name##Target(QByteArray(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size)));                   \
        return 0;                                                                                                      \
    }                                                                                                                  \
    static void name##Target(const QByteArray& input)
#else
#define INTERLUDE_FUZZ_TARGET(name)                                                                                    \
    static void name##Target(const QByteArray& input);                                                                 \
    [[maybe_unused]] static const bool name##Known = interlude::tests::targets().emplace(#name, name##Target).second;  \
    static void name##Target(const QByteArray& input)
#endif
