// Whatever bytes a fleet folder holds, reading it ends with a catalogue or with problems, never with a crash.
#include "model/catalogue/text_file.h"
#include "tests/catalogue/folders.h"
#include "tests/harness/run_tests.h"

#include <QRandomGenerator>
#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// Through the same two doors as a folder's file, without the disk.
void readBytes(QMap<QString, QString> texts, const QString& name, const QByteArray& bytes) {
    Problems problems;
    const auto text = textOf(name, bytes, problems);
    if (!text) {
        QVERIFY(!problems.isEmpty());
        return;
    }
    texts[name] = *text;
    const CatalogueReading r = readFleetTexts(texts);
    const bool error = std::any_of(r.problems.begin(), r.problems.end(), [](const Problem& p) { return !p.warning; });
    QCOMPARE(r.catalogue == nullptr, error);
    for (const Problem& p : r.problems) {
        QVERIFY2(!p.file.isEmpty() && !p.what.isEmpty(), qPrintable(p.text()));
        QVERIFY2(p.line >= 0 && p.column >= 0 && p.line <= text->size() + 5000, qPrintable(p.text()));
    }
}

QByteArray damaged(QByteArray bytes, QRandomGenerator& random) {
    const auto size = static_cast<int>(bytes.size());
    switch (random.bounded(6)) {
    case 0:
        bytes[random.bounded(size)] = static_cast<char>(random.bounded(256));
        break;
    case 1:
        bytes.truncate(random.bounded(size));
        break;
    case 2:
        bytes.remove(random.bounded(size), 1 + random.bounded(8));
        break;
    case 3:
        bytes.insert(random.bounded(size), "{}[]:,-&*!|>'\"#%@`?\n\t 0eE~"[random.bounded(27)]);
        break;
    case 4: {
        const int from = random.bounded(size);
        bytes.insert(random.bounded(size), bytes.mid(from, 1 + random.bounded(60)));
        break;
    }
    default:
        bytes[random.bounded(size)] = static_cast<char>(bytes[random.bounded(size)] ^ (1 << random.bounded(7)));
        break;
    }
    return bytes.isEmpty() ? QByteArray(" ") : bytes;
}

} // namespace

class BrokenBytesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void damagedFiles() {
        const auto files = baseFiles();
        const auto texts = baseTexts();
        QRandomGenerator random(4242);
        const QStringList names = files.keys();
        for (int i = 0; i < (longRun() ? 2'000 : 700); ++i) {
            const QString name = names[i % names.size()];
            QByteArray bytes = files.value(name);
            for (int n = 1 + random.bounded(3); n > 0; --n)
                bytes = damaged(bytes, random);
            readBytes(texts, name, bytes);
            if (QTest::currentTestFailed())
                QFAIL(qPrintable(QStringLiteral("%1, round %2").arg(name).arg(i)));
        }
    }
    void cutAfterEveryByte() {
        const auto files = baseFiles();
        const auto texts = baseTexts();
        const int stride = longRun() ? 11 : 37;
        for (auto it = files.cbegin(); it != files.cend(); ++it)
            for (int length = 0; length < it.value().size(); length += stride)
                readBytes(texts, it.key(), it.value().left(length));
    }
    /// Files that only an enemy would write; they must end, and say something.
    void hostile_data() {
        QTest::addColumn<QString>("text");
        const auto many = [](const char* piece, int n) { return QString::fromLatin1(piece).repeated(n); };
        QTest::newRow("flow maps") << many("{a: ", 30'000);
        QTest::newRow("question marks") << many("? ", 30'000);
        QTest::newRow("one line of words")
            << QStringLiteral("spools: [") + many("abc, ", 200'000) + QStringLiteral("]\n");
        QTest::newRow("one long word") << QStringLiteral("spools: ") + many("abcdefgh", 500'000);
        QTest::newRow("one long quoted word") << QStringLiteral("spools: \"") + many("abcdefgh", 500'000);
        QTest::newRow("unknown keys") << [] {
            QString s;
            for (int i = 0; i < 60'000; ++i)
                s += QStringLiteral("key-%1: 1\n").arg(i);
            return s;
        }();
        QTest::newRow("many entries") << QStringLiteral("spools:\n") +
                                             many("  - {id: S-1, material: nothing, lot: L}\n", 9'000);
        QTest::newRow("too many entries") << QStringLiteral("spools:\n") + many("  - {}\n", 11'000);
        QTest::newRow("comments") << many("# nothing\n", 200'000);
        QTest::newRow("anchors") << QStringLiteral("spools: [") + many("&a x, *a, ", 20'000) + QStringLiteral("]\n");
        QTest::newRow("colons") << many(": ", 30'000);
        QTest::newRow("documents") << many("---\n", 30'000);
        QTest::newRow("directives") << many("%YAML 1.2\n", 30'000);
    }
    void hostile() {
        QFETCH(QString, text);
        auto texts = baseTexts();
        texts[QStringLiteral("spools.yaml")] = text;
        const CatalogueReading r = readFleetTexts(texts);
        QVERIFY(!r.catalogue);
        QVERIFY(!r.problems.isEmpty());
    }
};

INTERLUDE_TEST(BrokenBytesTest)
#include "broken_bytes_test.moc"
