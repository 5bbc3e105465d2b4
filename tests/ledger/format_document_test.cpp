// The document is tested: its worked example is computed, its verifier is run.
#include "tests/harness/run_tests.h"
#include "tests/ledger/fixture.h"

#include "model/ledger/chain.h"

#include <QProcess>
#include <QRegularExpression>
#include <QStandardPaths>

using namespace interlude;
using namespace interlude::tests;

namespace {
QString document() {
    return QString::fromUtf8(bytesOf(QStringLiteral(INTERLUDE_SOURCE_DIR "/resources/help/ledger-format.md")));
}
/// The lines of the document that are set off by four blanks.
QStringList setOff() {
    QStringList out;
    static const QRegularExpression example(QStringLiteral("^    (\\{.*\\}|[0-9a-f]{64})$"));
    for (const QString& line : document().split('\n'))
        if (const auto match = example.match(line); match.hasMatch()) out += match.captured(1);
    return out;
}
} // namespace

class FormatDocumentTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theWorkedExampleIsRight();
    void itsVerifierAgreesWithOurs();
};

void FormatDocumentTest::theWorkedExampleIsRight() {
    const QStringList lines = setOff();
    QCOMPARE(lines.size(), 5); // hash(0), event 1, hash(1), event 2, hash(2)
    QByteArray hash = genesisHash(fleet);
    QCOMPARE(hash.toHex(), lines[0].toLatin1());
    for (int i = 1; i < 5; i += 2) {
        const QByteArray canonical = lines[i].toUtf8();
        const auto event = eventOf(canonical);
        QVERIFY2(event, qPrintable(event ? QString() : event.error().reason));
        QCOMPARE(*canonicalBytes(*event), canonical);
        hash = chainedHash(hash, canonical);
        QCOMPARE(hash.toHex(), lines[i + 1].toLatin1());
    }
    QVERIFY(document().contains(QString::number(0x494c4447)));
}

void FormatDocumentTest::itsVerifierAgreesWithOurs() {
    const QString python = QStandardPaths::findExecutable(QStringLiteral("python3"));
    if (python.isEmpty()) QSKIP("no python3 here: the document's verifier was not run");
    const QRegularExpression block(QStringLiteral("```python\n(.*)```"), QRegularExpression::DotMatchesEverythingOption);
    const QString program = block.match(document()).captured(1);
    QVERIFY(program.size() > 200);
    const Folder folder;
    fill(folder.file(), 30);
    const auto run = [&] {
        QProcess process;
        process.start(python, {"-c", program, folder.file()});
        process.waitForFinished();
        return QString::fromUtf8(process.readAllStandardOutput() + process.readAllStandardError()).trimmed();
    };
    const QString last = QString::fromLatin1((*opened(folder.file(), true))->lastHash().toHex());
    QCOMPARE(run(), QStringLiteral("30 events fit, the last hash is ") + last);
    Sql sql(folder.file());
    sql.unlockEvents();
    QCOMPARE(sql.run("UPDATE event SET canonical = CAST(replace(CAST(canonical AS TEXT), 'line 12', 'line 13') AS BLOB) WHERE sequence = 12"), QString());
    QCOMPARE(run(), QStringLiteral("event 12 does not fit"));
    QCOMPARE((*opened(folder.file(), true))->verify()->sequence, 12);
}

INTERLUDE_TEST(FormatDocumentTest)
#include "format_document_test.moc"
