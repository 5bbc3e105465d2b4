#pragma once
// The shipped program and the tools that read what it writes, called as a script would call them.

#include <QProcess>

namespace interlude::tests {

struct Ran {
    int code = -1; ///< exit code; 128 after a crash, -1 when it never ended
    QString out, err;
};

/// Runs `interlude` with those words and nothing on standard input; at most ten minutes.
inline Ran call(const QStringList& words) {
    QProcess p;
    p.start(QStringLiteral(INTERLUDE_PROGRAM), words);
    p.closeWriteChannel();
    if (!p.waitForFinished(600000)) return {-1, {}, p.errorString()};
    return {p.exitStatus() == QProcess::NormalExit ? p.exitCode() : 128, QString::fromUtf8(p.readAllStandardOutput()),
            QString::fromUtf8(p.readAllStandardError())};
}

/// The text of a PDF as it lies on the page, read by poppler; empty if the file can't be read.
inline QString pdfText(const QString& file) {
    QProcess p;
    p.start(QStringLiteral("pdftotext"), {QStringLiteral("-layout"), file, QStringLiteral("-")});
    p.waitForFinished();
    return QString::fromUtf8(p.readAllStandardOutput());
}

} // namespace interlude::tests
