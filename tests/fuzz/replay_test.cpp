// Every input of the corpora through its target, without a fuzzer: what was once found stays mended.

#include "tests/fuzz/target.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QFile>
#include <QRandomGenerator>
#include <QTest>

using namespace interlude::tests;

namespace {

QByteArray bytesOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

QDir corpusOf(const QString& target) {
    return QDir(QStringLiteral(INTERLUDE_SOURCE_DIR "/tests/fuzz/corpus/") + target);
}

/// A small change, as a slip of a hand or a disk makes it.
QByteArray damaged(QByteArray bytes, QRandomGenerator& random) {
    if (bytes.isEmpty()) return QByteArray("\n");
    const auto at = [&] { return random.bounded(static_cast<int>(bytes.size())); };
    switch (random.bounded(4)) {
    case 0: bytes[at()] = static_cast<char>(random.bounded(256)); break;
    case 1: bytes.remove(at(), 1 + random.bounded(6)); break;
    case 2: bytes.insert(at(), bytes.mid(at(), 1 + random.bounded(40))); break;
    default: bytes.truncate(at()); break;
    }
    return bytes;
}

} // namespace

class ReplayTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyTargetHasACorpusAndEveryCorpusATarget() {
        QStringList names;
        for (const auto& [name, target] : targets()) names << QString::fromStdString(name);
        QVERIFY(names.size() >= 7);
        QCOMPARE(QDir(QStringLiteral(INTERLUDE_SOURCE_DIR "/tests/fuzz/corpus")).entryList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name), names);
        for (const QString& name : names) QVERIFY2(corpusOf(name).entryList(QDir::Files).size() >= 2, qPrintable(name));
    }

    void corpus_data() {
        QTest::addColumn<QString>("target");
        QTest::addColumn<QString>("file");
        for (const auto& [name, target] : targets()) {
            const QString n = QString::fromStdString(name);
            for (const QString& file : corpusOf(n).entryList(QDir::Files, QDir::Name))
                QTest::newRow(qPrintable(n + QLatin1Char('/') + file)) << n << corpusOf(n).filePath(file);
        }
    }
    void corpus() {
        QFETCH(QString, target);
        QFETCH(QString, file);
        targets().at(target.toStdString())(bytesOf(file));
    }

    void aFewSlipsInEach_data() { corpus_data(); }
    void aFewSlipsInEach() {
        QFETCH(QString, target);
        QFETCH(QString, file);
        QRandomGenerator random(20260302);
        const QByteArray good = bytesOf(file);
        for (int round = 0; round < (longRun() ? 10 : 3); ++round) targets().at(target.toStdString())(damaged(good, random));
    }
};

INTERLUDE_TEST(ReplayTest)
#include "replay_test.moc"
