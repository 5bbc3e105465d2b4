// A bundle opened from the file manager.

#include "tests/harness/run_tests.h"
#include "views/records/bundle_dialog.h"

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QTest>

using namespace interlude;

class BundleDialogTest final : public QObject {
    Q_OBJECT
private:
    static BundleCheck check(FileState state) {
        return {QStringLiteral("/nowhere"), {{QStringLiteral("record.pdf"), state}, {QStringLiteral("notes.txt"), FileState::NotListed}},
                {QStringLiteral("Changeover record 7"), QStringLiteral("Six bays")}, QStringLiteral("interlude ledger six-bays 88 00ff")};
    }
    static QString text(const BundleDialog& d, const char* name) {
        const auto* label = d.findChild<QLabel*>(QLatin1String(name));
        return label ? label->text() : QString();
    }

private Q_SLOTS:
    void saysWhatItIsAndThatItIsWhole() {
        BundleDialog d(check(FileState::Fits));
        d.show();
        QCOMPARE(text(d, "bundleResult"), QStringLiteral("Every file is as it was written."));
        QVERIFY(text(d, "bundleHash").endsWith(QStringLiteral("interlude ledger six-bays 88 00ff")));
        QCOMPARE(d.findChild<QListWidget*>()->count(), 2);
        for (const QPushButton* b : d.findChildren<QPushButton*>())
            QVERIFY2(!b->text().contains(QStringLiteral("record")), "there is no PDF to open");
        if (const QString dir = qEnvironmentVariable("INTERLUDE_PICTURES"); !dir.isEmpty()) d.grab().save(dir + QStringLiteral("/bundle.png"));
        QTest::keyClick(&d, Qt::Key_Escape);
        QVERIFY(!d.isVisible());
    }
    void saysWhatIsWrong() {
        BundleDialog d(check(FileState::Changed));
        QVERIFY(text(d, "bundleResult").startsWith(QStringLiteral("1 of 2 files")));
        BundleDialog none(refusal(QStringLiteral("bundle"), QStringLiteral("There is no list")));
        QCOMPARE(text(none, "bundleResult"), QStringLiteral("There is no list"));
        QVERIFY(!none.findChild<QListWidget*>());
    }
};

INTERLUDE_TEST(BundleDialogTest)
#include "bundle_dialog_test.moc"
