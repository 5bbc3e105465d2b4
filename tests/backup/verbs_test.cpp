// `interlude backup` and `restore`, called as a script would call them.
#include "model/backup/backup.h"
#include "tests/harness/program.h"
#include "tests/harness/run_tests.h"
#include "tests/ledger/fixture.h"

#include <QDir>
#include <QRegularExpression>

using namespace interlude;
using namespace interlude::tests;

class BackupVerbsTest final : public QObject {
    Q_OBJECT
private:
    QString in(const QString& name) const { return m_dir->filePath(name); }
    QStringList withLedger(const QStringList& words) const { return words + QStringList{"--ledger", in("l.sqlite")}; }
    /// A shop of one's own whose ledger has been begun by an import.
    void begin() {
        QCOMPARE(call({"new", in("shop")}).code, 0);
        QFile csv(in("s.csv"));
        QVERIFY(csv.open(QIODevice::WriteOnly));
        csv.write("id,material,lot,grams\nZ-1," + material() + ",L1,900\n");
        csv.close();
        const Ran ran = call(withLedger({"import", in("shop"), "spools", csv.fileName()}));
        QVERIFY2(ran.code == 0, qPrintable(ran.err));
    }
    QByteArray material() const {
        QFile file(in("shop/materials.yaml"));
        if (!file.open(QIODevice::ReadOnly)) return {};
        static const QRegularExpression id(QStringLiteral("id: ([\\w-]+)"));
        return id.match(QString::fromUtf8(file.readAll())).captured(1).toUtf8();
    }

    std::unique_ptr<QTemporaryDir> m_dir;

private Q_SLOTS:
    void init() { m_dir = std::make_unique<QTemporaryDir>(); }

    void backUpAndRestoreOnANewComputer() {
        begin();
        const Ran made = call(withLedger({"backup", in("shop"), "--out", in("b")}));
        QVERIFY2(made.code == 0, qPrintable(made.err));
        QVERIFY2(made.out.contains("verified"), qPrintable(made.out));
        const auto note = verifyBackup(in("b"));
        QVERIFY(note && note->position.events > 3);
        QVERIFY(QDir(in("shop")).removeRecursively() && QFile::remove(in("l.sqlite")));
        const Ran back = call(withLedger({"restore", in("shop"), in("b")}));
        QVERIFY2(back.code == 0, qPrintable(back.err));
        QVERIFY2(back.out.contains(QStringLiteral("%1 events, all fit").arg(note->position.events)), qPrintable(back.out));
        QCOMPARE(call({"check", in("shop")}).code, 0);
        const Ran verified = call(withLedger({"verify", in("shop")}));
        QVERIFY2(verified.code == 0, qPrintable(verified.err));
        QVERIFY(verified.out.contains(QString::fromLatin1(note->position.hash.toHex())));
    }
    void aBackupIsVerifiedAsItLies() {
        begin();
        QCOMPARE(call(withLedger({"backup", in("shop"), "--out", in("b")})).code, 0);
        const Ran good = call({"verify", in("b")});
        QVERIFY2(good.code == 0, qPrintable(good.err));
        QVERIFY2(good.out.contains("a backup of my-shop, made on ") && good.out.contains(" files are as they were when it was made.\n") &&
                     good.out.contains(" events, all fit; the last hash is "), qPrintable(good.out));
        QCOMPARE(call({"verify", in("b"), "--record", QString(64, 'a')}).code, 2);
        QFile jobs(in("b/fleet/jobs.yaml"));
        QVERIFY(jobs.open(QIODevice::Append) && jobs.write("#\n") == 2);
        jobs.close();
        const Ran torn = call({"verify", in("b")});
        QCOMPARE(torn.code, 1);
        QVERIFY2(torn.err.contains("jobs.yaml is not as it was when the backup was made"), qPrintable(torn.err));
    }
    void aFolderThatIsThereTakesBackupsIn() {
        begin();
        QVERIFY(QDir().mkpath(in("kept")));
        QCOMPARE(call(withLedger({"backup", in("shop"), "--out", in("kept")})).code, 0);
        const QStringList made = QDir(in("kept")).entryList(QDir::Dirs | QDir::NoDotAndDotDot);
        QCOMPARE(made.size(), 1);
        QVERIFY(verifyBackup(in("kept/" + made.first())));
    }
    void refusalsExitWithOneAndSayWhatToDo() {
        begin();
        QCOMPARE(call(withLedger({"backup", in("shop"), "--out", in("b")})).code, 0);
        QCOMPARE(call(withLedger({"import", in("shop"), "spools", in("s.csv")})).code, 0); // nothing new: no event
        QFile csv(in("s.csv"));
        QVERIFY(csv.open(QIODevice::WriteOnly));
        csv.write("id,material,lot,grams\nZ-2," + material() + ",L1,900\n");
        csv.close();
        QCOMPARE(call(withLedger({"import", in("shop"), "spools", csv.fileName()})).code, 0);
        const Ran newer = call(withLedger({"restore", in("shop"), in("b")}));
        QCOMPARE(newer.code, 1);
        QVERIFY2(newer.err.contains("events that the backup lacks") && newer.err.contains("--replace-newer"), qPrintable(newer.err));
        const Ran told = call(withLedger({"restore", in("shop"), in("b"), "--replace-newer"}));
        QVERIFY2(told.code == 0, qPrintable(told.err));
        QVERIFY2(told.out.contains("kept aside") && told.out.contains("are not in the backup"), qPrintable(told.out));
        QCOMPARE(call(withLedger({"restore", in("shop"), in("nothing")})).code, 1);
        QCOMPARE(call(withLedger({"restore", in("shop")})).code, 2);
        QCOMPARE(call(withLedger({"backup", in("shop")})).code, 2);
    }
    void aChangedFleetFolderIsLeftAndTold() {
        begin();
        QCOMPARE(call(withLedger({"backup", in("shop"), "--out", in("b")})).code, 0);
        QFile fleet(in("shop/fleet.yaml"));
        QVERIFY(fleet.open(QIODevice::Append));
        fleet.write("# a remark\n");
        fleet.close();
        const QByteArray mine = bytesOf(fleet.fileName());
        const Ran back = call(withLedger({"restore", in("shop"), in("b")}));
        QVERIFY2(back.code == 0, qPrintable(back.err));
        QVERIFY2(back.out.contains("fleet.yaml"), qPrintable(back.out));
        QCOMPARE(bytesOf(fleet.fileName()), mine);
    }
};
INTERLUDE_TEST(BackupVerbsTest)
#include "verbs_test.moc"
