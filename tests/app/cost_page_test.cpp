// The help page that says what cost is: its example, planned by the program, costs what the page reckons by hand.

#include "tests/harness/program.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>

using namespace interlude::tests;

class CostPageTest final : public QObject {
    Q_OBJECT
private:
    QTemporaryDir m_dir;
    QString m_page;

    /// The indented blocks of the page, each begun by the name of its file, as a fleet folder.
    void writeExample() {
        static const QRegularExpression block(QStringLiteral("^    # (\\S+)\\n((?:    .*\\n)+)"), QRegularExpression::MultilineOption);
        int files = 0;
        for (auto each = block.globalMatch(m_page); each.hasNext(); ++files) {
            const auto found = each.next();
            QFile file(m_dir.filePath(found.captured(1)));
            QVERIFY(file.open(QIODevice::WriteOnly));
            for (const QString& line : found.captured(2).split(QLatin1Char('\n'))) file.write(line.mid(4).toUtf8() + '\n');
        }
        QCOMPARE(files, 4);
    }
    QJsonObject planned(const QStringList& more) {
        const Ran ran = call(QStringList{"plan", m_dir.path(), "--ledger", m_dir.filePath("l.sqlite"), "--now", "2026-01-01T00:00", "--iterations", "100", "--json", "-"} + more);
        if (ran.code != 0) qFatal("%s", qPrintable(ran.err));
        return QJsonDocument::fromJson(ran.out.toUtf8()).object();
    }

private Q_SLOTS:
    void initTestCase() {
        QFile page(QStringLiteral(INTERLUDE_SOURCE_DIR "/resources/help/cost.md"));
        QVERIFY(page.open(QIODevice::ReadOnly));
        m_page = QString::fromUtf8(page.readAll());
        writeExample();
    }

    void theExampleCostsWhatThePageSays() {
        const QJsonObject plan = planned({});
        static const QRegularExpression said(QStringLiteral("Together \\*\\*([0-9.]+)\\*\\*"));
        QCOMPARE(plan["totals"].toObject()["cost"].toDouble(), said.match(m_page).captured(1).toDouble());
        const QJsonArray jobs = plan["printers"].toArray()[0].toObject()["jobs"].toArray();
        QCOMPARE(jobs.size(), 2);
        QCOMPARE(jobs[0].toObject()["id"].toString(), QStringLiteral("7401"));
        QCOMPARE(jobs[1].toObject()["complete"].toInt(), 180);
        QCOMPARE(plan["totals"].toObject()["turnaround_minutes"].toInt(), 30);
    }
    void theOtherOrderToo() {
        // First in, first out takes the jobs in the file's order.
        QFile table(m_dir.filePath("jobs.yaml"));
        QVERIFY(table.open(QIODevice::ReadOnly));
        QByteArray jobs = table.readAll();
        table.close();
        const QList<QByteArray> lines = jobs.split('\n');
        QVERIFY(table.open(QIODevice::WriteOnly));
        table.write(lines[0] + '\n' + lines[2] + '\n' + lines[1] + '\n');
        table.close();
        QVERIFY(m_page.contains("together 43.09"));
        QCOMPARE(planned({})["yardsticks"].toObject()["first_in_first_out"].toObject()["cost"].toDouble(), 43.09);
    }
};

INTERLUDE_TEST(CostPageTest)
#include "cost_page_test.moc"
