// An export is read back: what is unchanged, changed, missing, or none of its business; and lists that are none.

#include "model/records/bundle_check.h"
#include "tests/harness/run_tests.h"

#include <QCryptographicHash>
#include <QDir>
#include <QScopeGuard>
#include <QTemporaryDir>
#include <QTest>

using namespace interlude;

class BundleCheckTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<QTemporaryDir> m_dir;

    QByteArray write(const QString& name, const QByteArray& bytes) {
        const QString path = m_dir->filePath(name);
        QDir().mkpath(QFileInfo(path).path());
        QFile file(path);
        if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size()) qFatal("%s cannot be written", qPrintable(path));
        return QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex() + "  " + name.toUtf8() + "\n";
    }
    void writeBundle() {
        const QByteArray record = R"({"title":"Changeover record 7","shop":"Six bays","revision":2,"verification":"interlude ledger six-bays 88 00ff"})";
        write(bundle::sums, write(bundle::recordPdf, "%PDF") + write(bundle::recordJson, record) + write(QStringLiteral("photo-1.jpg"), "jpg"));
    }
    BundleCheck checked(const QString& path) {
        const auto check = checkBundle(path);
        if (!check) qFatal("%s", qPrintable(sentence(check.error())));
        return *check;
    }

private Q_SLOTS:
    void init() { m_dir = std::make_unique<QTemporaryDir>(); }

    void unchanged() {
        writeBundle();
        const BundleCheck check = checked(m_dir->path());
        QVERIFY(check.fits());
        QCOMPARE(check.files.size(), 3);
        QCOMPARE(check.about, (QStringList{QStringLiteral("Changeover record 7"), QStringLiteral("Six bays"), QStringLiteral("Revision 2")}));
        QCOMPARE(check.ledgerHash, QStringLiteral("interlude ledger six-bays 88 00ff"));
        QCOMPARE(sentence(check), QStringLiteral("Every file is as it was written."));
    }
    void aRelativeFolderIsTheSameFolder() {
        writeBundle();
        write(bundle::recordPdf, "%PDG");
        const QString before = QDir::currentPath();
        const auto back = qScopeGuard([&] { QDir::setCurrent(before); });
        const QString name = QFileInfo(m_dir->path()).fileName();
        for (const auto& [from, path] : {std::pair(QFileInfo(m_dir->path()).path(), name), std::pair(m_dir->path(), QStringLiteral(".")),
                                         std::pair(m_dir->path(), QStringLiteral("../") + name)}) {
            QVERIFY(QDir::setCurrent(from));
            const BundleCheck check = checked(path);
            QCOMPARE(check.files.size(), 3);
            QCOMPARE(sentence(check), QStringLiteral("1 of 3 files are not as they were written."));
        }
    }
    void theJsonOfTheRecordServesAsWell() {
        writeBundle();
        QVERIFY(isBundle(m_dir->filePath(bundle::recordJson)) && isBundle(m_dir->path()));
        QVERIFY(checked(m_dir->filePath(bundle::recordJson)).fits());
    }
    void changedMissingAndStrange() {
        writeBundle();
        write(bundle::recordPdf, "%PDG");
        QVERIFY(QFile::remove(m_dir->filePath(QStringLiteral("photo-1.jpg"))));
        write(QStringLiteral("notes.txt"), "mine");
        const BundleCheck check = checked(m_dir->path());
        QVERIFY(!check.fits());
        QStringList said;
        for (const CheckedFile& f : check.files) said.append(sentence(f));
        QCOMPARE(said, (QStringList{QStringLiteral("record.pdf: CHANGED since it was written"), QStringLiteral("record.interlude.json: unchanged"),
                                    QStringLiteral("photo-1.jpg: MISSING"), QStringLiteral("notes.txt: not in the list of sums")}));
        QCOMPARE(sentence(check), QStringLiteral("2 of 4 files are not as they were written."));
    }
    void aFolderInPlaceOfAFile() {
        writeBundle();
        QVERIFY(QFile::remove(m_dir->filePath(bundle::recordPdf)));
        QVERIFY(QDir(m_dir->path()).mkdir(bundle::recordPdf));
        QVERIFY(!checked(m_dir->path()).fits());
    }
    void aWholeExportSumsUpItsBundles() {
        const QByteArray inner = write(QStringLiteral("session-0001/record.pdf"), "%PDF");
        write(QStringLiteral("session-0001/sha256sums.txt"), inner);
        write(bundle::sums, write(QStringLiteral("ledger.jsonl"), "{}\n") + inner);
        const BundleCheck check = checked(m_dir->path());
        QVERIFY(check.fits());
        QCOMPARE(check.files.size(), 2);
        QVERIFY(check.about.isEmpty());
    }
    void aFleetIsNoBundle() {
        writeBundle();
        write(QStringLiteral("fleet.yaml"), "format: 1\n");
        QVERIFY(!isBundle(m_dir->path()));
        QVERIFY(!isBundle(QString()) && !isBundle(m_dir->filePath(QStringLiteral("nothing"))));
    }
    void lists_data() {
        QTest::addColumn<QByteArray>("list");
        QTest::addColumn<QString>("said");
        const QByteArray sum(64, 'a');
        QTest::newRow("empty") << QByteArray() << "lists no file";
        QTest::newRow("blank lines") << QByteArray("\n\n") << "lists no file";
        QTest::newRow("words") << QByteArray("hello\n") << ":1 is not a sum and a file's name";
        QTest::newRow("short sum") << QByteArray(63, 'a') + "  record.pdf\n" << ":1 is not a sum";
        QTest::newRow("no name") << sum + "  \n" << ":1 is not a sum";
        QTest::newRow("second line") << sum + "  a\nb\n" << ":2 is not a sum";
        QTest::newRow("absolute") << sum + "  /etc/hostname\n" << ":1 names a file outside the folder";
        QTest::newRow("upwards") << sum + "  x/../../secret\n" << ":1 names a file outside the folder";
        QTest::newRow("not text") << QByteArray("\x00\xff\xfe", 3) + "\n" << ":1 is not a sum";
    }
    void lists() {
        QFETCH(QByteArray, list);
        QFETCH(QString, said);
        write(bundle::sums, list);
        const auto check = checkBundle(m_dir->path());
        QVERIFY(!check);
        QVERIFY2(check.error().reason.contains(said), qPrintable(check.error().reason));
    }
    void recordsThatAreNone_data() {
        QTest::addColumn<QByteArray>("json");
        for (const char* json : {"", "[", "[]", "{\"title\":7,\"revision\":\"x\",\"verification\":[]}", "{\"title\":\"\\ud800\"}", "\xff\xfe"})
            QTest::newRow(json) << QByteArray(json);
    }
    void recordsThatAreNone() {
        QFETCH(QByteArray, json);
        write(bundle::sums, write(bundle::recordJson, json));
        const BundleCheck check = checked(m_dir->path());
        QVERIFY(check.fits() && check.ledgerHash.isEmpty());
    }
    void noList() {
        const auto check = checkBundle(m_dir->path());
        QVERIFY(!check && check.error().reason.contains(QStringLiteral("sha256sums.txt cannot be read")));
    }
};

INTERLUDE_TEST(BundleCheckTest)
#include "bundle_check_test.moc"
