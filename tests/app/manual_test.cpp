// Manual page and help page name every verb and option that the program itself knows, and no other option.

#include "tests/harness/run_tests.h"

#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QSet>
#include <QTest>

namespace {

QString read(const QString& path) {
    QFile file(QStringLiteral(INTERLUDE_SOURCE_DIR "/") + path);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

QString help(const QStringList& words) {
    QProcess p;
    p.start(QStringLiteral(INTERLUDE_PROGRAM), words + QStringList{QStringLiteral("--help")});
    p.waitForFinished(60000);
    return QString::fromUtf8(p.readAllStandardOutput());
}

QSet<QString> optionsIn(const QString& text) {
    QSet<QString> found;
    static const QRegularExpression option(QStringLiteral("--[a-z][a-z-]*"));
    for (auto m = option.globalMatch(text); m.hasNext();) found.insert(m.next().captured());
    return found;
}

QStringList verbs() {
    QStringList found;
    const QString text = help({});
    static const QRegularExpression line(QStringLiteral("^  ([a-z]+) "), QRegularExpression::MultilineOption);
    for (auto m = line.globalMatch(text.mid(text.indexOf(QStringLiteral("Subcommands:")))); m.hasNext();) found.append(m.next().captured(1));
    return found;
}

} // namespace

class ManualTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() {
        m_verbs = verbs();
        QVERIFY(m_verbs.contains(QStringLiteral("plan")));
        for (const QString& verb : m_verbs) m_options += optionsIn(help({verb}));
        m_options.insert(QStringLiteral("--version"));
    }

    void theManualPageNamesEveryVerbAndOption() {
        QString page = read(QStringLiteral("app/package/interlude.1"));
        QVERIFY(page.startsWith(QStringLiteral(".\\\"")));
        page.replace(QStringLiteral("\\-"), QStringLiteral("-"));
        for (const QString& verb : m_verbs)
            QVERIFY2(page.contains(QStringLiteral("\n.BI \"%1 ").arg(verb)), qPrintable(verb));
        QCOMPARE(optionsIn(page), m_options);
    }

    void theHelpPageNamesEveryVerbAndOption() {
        const QString page = read(QStringLiteral("resources/help/command-line.md"));
        for (const QString& verb : m_verbs)
            QVERIFY2(verb == QStringLiteral("open") || page.contains(QStringLiteral("`interlude %1 ").arg(verb)), qPrintable(verb));
        QCOMPARE(optionsIn(page), m_options);
    }

private:
    QStringList m_verbs;
    QSet<QString> m_options;
};

INTERLUDE_TEST(ManualTest)
#include "manual_test.moc"
