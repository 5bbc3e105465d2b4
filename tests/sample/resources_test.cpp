// What is compiled in: the folder to start from, help pages whose links lead somewhere, drawings that draw.
#include "model/catalogue/reader.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QFile>
#include <QImage>
#include <QPainter>
#include <QRegularExpression>
#include <QSvgRenderer>
#include <QTest>

using namespace interlude;

namespace {

QByteArray compiledIn(const QString& path) {
    QFile f(QStringLiteral(":/") + path);
    return f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray();
}

/// Share of the pixels that a drawing inks, at the size of a list row.
double inked(const QByteArray& svg) {
    QImage image(24, 24, QImage::Format_ARGB32);
    image.fill(Qt::transparent);
    QSvgRenderer renderer(svg);
    QPainter painter(&image);
    renderer.render(&painter);
    painter.end();
    int n = 0;
    for (int y = 0; y < 24; ++y)
        for (int x = 0; x < 24; ++x) n += image.pixelColor(x, y).alpha() > 60;
    return n / (24.0 * 24.0);
}

} // namespace

class ResourcesTest : public QObject {
    Q_OBJECT

    static CatalogueReading newFleet() {
        QMap<QString, QString> texts;
        const QDir dir(QStringLiteral(":/new-fleet"));
        for (const QString& name : dir.entryList(QDir::Files))
            texts[name] = QString::fromUtf8(compiledIn(QStringLiteral("new-fleet/") + name));
        return readFleetTexts(texts);
    }

private Q_SLOTS:
    void initTestCase() {
        Q_INIT_RESOURCE(interlude); // nothing else here calls the library that holds them
    }

    void newFleetReadsWithoutProblems() {
        const CatalogueReading reading = newFleet();
        QStringList said;
        for (const Problem& p : reading.problems) said.append(p.text());
        QVERIFY2(said.isEmpty(), qPrintable(said.join(QLatin1Char('\n'))));
        QVERIFY(reading.catalogue);
        QVERIFY(reading.catalogue->procedures.steps.size() >= 40);
        QCOMPARE(reading.catalogue->fleet.printers.size(), 2);
        QVERIFY(!reading.catalogue->fleet.exampleClock); // one's own shop lives in the present
    }

    void everyDrawingDraws() {
        const QStringList names = QDir(QStringLiteral(":/icons")).entryList({QStringLiteral("*.svg")});
        QVERIFY(names.size() >= 26);
        for (const QString& name : names) {
            QByteArray svg = compiledIn(QStringLiteral("icons/") + name);
            QVERIFY2(svg.contains("currentColor"), qPrintable(name));
            svg.replace("currentColor", "#000000");
            QVERIFY2(QSvgRenderer(svg).isValid(), qPrintable(name));
            QVERIFY2(inked(svg) > 0.05 && inked(svg) < 0.8, qPrintable(name));
        }
    }

    void everySubjectAndProtectionHasADrawing() {
        const CatalogueReading reading = newFleet();
        QVERIFY(reading.catalogue);
        QSet<QString> wanted;
        for (const StepTemplate& s : reading.catalogue->procedures.steps) {
            for (const Caution& c : s.cautions) wanted.insert(c.subject);
            for (const QString& p : s.protection) wanted.insert(p);
        }
        QVERIFY(wanted.size() >= 8);
        for (const QString& name : wanted)
            QVERIFY2(QFile::exists(QStringLiteral(":/icons/%1.svg").arg(name)), qPrintable(name));
    }

    void helpLinksLeadSomewhere() {
        const QDir help(QStringLiteral(":/help"));
        for (const char* page : {"today", "changeover", "stock", "nozzles", "records", "fleet-folder", "safety", "keys", "command-line"})
            QVERIFY2(help.exists(QString::fromLatin1(page) + QStringLiteral(".md")), page);
        static const QRegularExpression link(QStringLiteral("\\]\\(([^)]+)\\)"));
        for (const QString& page : help.entryList({QStringLiteral("*.md")})) {
            const QString text = QString::fromUtf8(compiledIn(QStringLiteral("help/") + page));
            QVERIFY2(text.startsWith(QStringLiteral("# ")), qPrintable(page));
            for (auto it = link.globalMatch(text); it.hasNext();) {
                const QString target = it.next().captured(1);
                QVERIFY2(help.exists(target), qPrintable(page + QStringLiteral(" → ") + target));
            }
        }
    }

    void helpNamesEveryWordOfTheFormat() {
        const QString page = QString::fromUtf8(compiledIn(QStringLiteral("help/fleet-folder.md")));
        for (const QString& word : conditionWords()) QVERIFY2(page.contains(word), qPrintable(word));
        for (int e = static_cast<int>(Effect::RemovePart); e <= static_cast<int>(Effect::StartPrint); ++e)
            QVERIFY2(page.contains(word(static_cast<Effect>(e))), qPrintable(word(static_cast<Effect>(e))));
    }
};

INTERLUDE_TEST(ResourcesTest)
#include "resources_test.moc"
