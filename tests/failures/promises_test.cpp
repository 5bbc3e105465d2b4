// Every sentence of the promises names a test, and every test that it names is there.
#include "tests/harness/run_tests.h"

#include <QDirIterator>
#include <QFile>
#include <QRegularExpression>
#include <QSet>
#include <QTest>

using namespace interlude::tests;

namespace {

QString page() {
    QFile file(QStringLiteral(":/help/promises.md"));
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

/// The list items above "How data can still be lost", each with its continuation lines.
QStringList promises() {
    const QString promised = page().section(QStringLiteral("## How data can still be lost"), 0, 0);
    QStringList items;
    for (const QString& line : promised.split(QLatin1Char('\n'))) {
        if (line.startsWith(QStringLiteral("- "))) items.append(line.mid(2));
        else if (line.startsWith(QStringLiteral("  ")) && !items.isEmpty()) items.last() += QLatin1Char(' ') + line.trimmed();
    }
    return items;
}

QStringList namedIn(const QString& text) {
    static const QRegularExpression name(QStringLiteral("`(\\w+Test::\\w+)`"));
    QStringList names;
    for (auto it = name.globalMatch(text); it.hasNext();) names.append(it.next().captured(1));
    return names;
}

/// Class::function of every slot in every registered test class of the tree.
QSet<QString> testsThatExist() {
    static const QRegularExpression registered(QStringLiteral("INTERLUDE_TEST\\((\\w+)\\)"));
    static const QRegularExpression function(QStringLiteral("^    void (\\w+)\\(\\)"), QRegularExpression::MultilineOption);
    QSet<QString> all;
    QDirIterator files(QStringLiteral(INTERLUDE_SOURCE_DIR "/tests"), {QStringLiteral("*_test.cpp")}, QDir::Files, QDirIterator::Subdirectories);
    while (files.hasNext()) {
        QFile file(files.next());
        if (!file.open(QIODevice::ReadOnly)) continue;
        const QString text = QString::fromUtf8(file.readAll());
        for (auto c = registered.globalMatch(text); c.hasNext();) {
            const QString name = c.next().captured(1);
            const qsizetype from = text.indexOf(QStringLiteral("class %1 ").arg(name));
            const QString body = text.mid(from, text.indexOf(QStringLiteral("\n};"), from) - from);
            for (auto f = function.globalMatch(body.mid(body.indexOf(QStringLiteral("Q_SLOTS")))); f.hasNext();)
                all.insert(name + QStringLiteral("::") + f.next().captured(1));
        }
    }
    return all;
}

} // namespace

class PromisesTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyPromiseNamesATestThatExists() {
        const QSet<QString> existing = testsThatExist();
        QVERIFY(existing.contains(QStringLiteral("PromisesTest::everyPromiseNamesATestThatExists")));
        QVERIFY(!existing.contains(QStringLiteral("PromisesTest::somethingElse")));
        const QStringList all = promises();
        QVERIFY(all.size() > 20);
        int names = 0;
        for (const QString& promise : all) {
            const QStringList named = namedIn(promise);
            QVERIFY2(!named.isEmpty(), qPrintable(QStringLiteral("nothing proves: ") + promise));
            for (const QString& name : named) QVERIFY2(existing.contains(name), qPrintable(name + QStringLiteral(" is not there")));
            names += static_cast<int>(named.size());
        }
        qInfo("%lld promises, %d tests named", static_cast<long long>(all.size()), names);
    }
    void whatIsNotPromisedIsSaid() {
        const QString lost = page().section(QStringLiteral("## How data can still be lost"), 1);
        for (const char* way : {"disk dies", "live file is copied", "network folder", "goes back in time", "backup-folder"})
            QVERIFY2(lost.contains(QLatin1String(way)), way);
    }
};
INTERLUDE_TEST(PromisesTest)
#include "promises_test.moc"
