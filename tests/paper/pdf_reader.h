#pragma once
// Reads a PDF back with the tools that app/set-up --tests installs: poppler-utils, qpdf, zbar-tools. A tool that is
// missing is a failure, never a test left out.

#include <QDir>
#include <QFileInfo>
#include <QImage>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>

namespace interlude::tests {

struct Output {
    int code = -1;
    QByteArray out, err;
};

inline Output runTool(const QString& program, const QStringList& words, const QString& folder = {}) {
    QProcess p;
    if (!folder.isEmpty()) p.setWorkingDirectory(folder);
    p.start(program, words);
    if (!p.waitForFinished(120000)) return {-1, {}, p.errorString().toUtf8()};
    return {p.exitStatus() == QProcess::NormalExit ? p.exitCode() : -1, p.readAllStandardOutput(), p.readAllStandardError()};
}

class PdfReader {
public:
    explicit PdfReader(const QString& file) : m_file(file) {}

    int pages() const { return info(QStringLiteral("Pages")).toInt(); }
    /// "595 x 842 pts (A4)"
    QString pageSize() const { return info(QStringLiteral("Page size")); }
    QString info(const QString& key) const {
        for (const QString& line : QString::fromUtf8(runTool(QStringLiteral("pdfinfo"), {m_file}).out).split(QLatin1Char('\n')))
            if (line.startsWith(key + QLatin1Char(':'))) return line.mid(key.size() + 1).trimmed();
        return {};
    }
    /// Page from 1; 0 = all. Blanks and line ends are single blanks, so that a phrase is found across a line's end.
    QString text(int page = 0) const {
        QStringList words{QStringLiteral("-layout")};
        if (page > 0) words << QStringLiteral("-f") << QString::number(page) << QStringLiteral("-l") << QString::number(page);
        return QString::fromUtf8(runTool(QStringLiteral("pdftotext"), words << m_file << QStringLiteral("-")).out).simplified();
    }
    /// The text in the order in which it was drawn: a cell's lines stay together.
    QString drawn() const {
        return QString::fromUtf8(runTool(QStringLiteral("pdftotext"), {QStringLiteral("-raw"), m_file, QStringLiteral("-")}).out).simplified();
    }
    /// One row for each font: name … emb sub uni.
    QStringList fonts() const {
        QStringList lines = QString::fromUtf8(runTool(QStringLiteral("pdffonts"), {m_file}).out).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
        return lines.mid(2);
    }
    /// All objects, streams unpacked.
    QByteArray objects() const {
        return runTool(QStringLiteral("qpdf"), {QStringLiteral("--qdf"), QStringLiteral("--object-streams=disable"), m_file, QStringLiteral("-")}).out;
    }
    /// What a scanner held before each of these places (points) reads, at 200 dots an inch.
    QStringList codes(int page, const QList<QRectF>& places) const {
        const QTemporaryDir dir;
        const QImage whole = picture(page, 200);
        QStringList words{QStringLiteral("-q"), QStringLiteral("--raw")};
        for (const QRectF& place : places) {
            words += dir.filePath(QStringLiteral("%1.png").arg(words.size()));
            const double dots = 200.0 / 72.0;
            whole.copy(QRectF(place.topLeft() * dots, place.size() * dots).toRect()).save(words.last());
        }
        const Output read = runTool(QStringLiteral("zbarimg"), words);
        return QString::fromUtf8(read.out).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    }
    /// A page as a picture, so that ink can be looked at.
    QImage picture(int page, int dots = 100) const {
        const QTemporaryDir dir;
        const QString at = dir.filePath(QStringLiteral("page"));
        runTool(QStringLiteral("pdftoppm"), {QStringLiteral("-r"), QString::number(dots), QStringLiteral("-png"), QStringLiteral("-singlefile"),
                                             QStringLiteral("-f"), QString::number(page), m_file, at});
        return QImage(at + QStringLiteral(".png"));
    }

private:
    QString m_file;
};

} // namespace interlude::tests
