// What is taken for a photo and what is left of it, how it is kept, and its way from the problem through the record to the
// export bundle; a photo that is missing or was changed is told.

#include "tests/changeover_page/page_driver.h"
#include "tests/harness/program.h"
#include "tests/harness/run_tests.h"
#include "views/asking/ask_dialog.h"
#include "views/paper/paper.h"
#include "views/photos/photo_field.h"

#include <QBuffer>
#include <QCryptographicHash>
#include <QImageWriter>
#include <QJsonArray>
#include <QPlainTextEdit>
#include <QProcess>
#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// Left half red, right half blue.
QImage twoColours(int width, int height) {
    QImage image(width, height, QImage::Format_RGB32);
    image.fill(Qt::red);
    for (int y = 0; y < height; ++y)
        for (int x = width / 2; x < width; ++x) image.setPixelColor(x, y, Qt::blue);
    return image;
}

QByteArray bytesOf(const QImage& image, const char* format) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, format);
    return bytes;
}

/// A JPEG as a camera writes it: an Exif block (TIFF 6.0, little-endian) that says "held on its side" (orientation 6) and
/// carries a name, and a comment.
QByteArray fromCamera(const QImage& image) {
    QByteArray tiff("II\x2a\x00\x08\x00\x00\x00", 8);
    tiff += QByteArray("\x02\x00", 2);                                                 // two entries
    tiff += QByteArray("\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00", 12);         // Orientation, SHORT, 1, 6
    tiff += QByteArray("\x3b\x01\x02\x00\x0d\x00\x00\x00\x26\x00\x00\x00", 12);         // Artist, ASCII, 13, at 38
    tiff += QByteArray("\x00\x00\x00\x00", 4) + QByteArray("SECRET OWNER\x00", 13);
    const QByteArray exif = QByteArray("Exif\x00\x00", 6) + tiff;
    const auto block = [](char marker, const QByteArray& content) {
        const auto length = static_cast<quint16>(content.size() + 2);
        return QByteArray(1, '\xff') + QByteArray(1, marker) + QByteArray(1, static_cast<char>(length >> 8)) +
               QByteArray(1, static_cast<char>(length & 0xff)) + content;
    };
    QByteArray jpeg = bytesOf(image, "jpeg");
    return jpeg.insert(2, block('\xe1', exif) + block('\xfe', "SECRET PLACE"));
}

} // namespace

class PhotoTest final : public QObject {
    Q_OBJECT
private:
    QTemporaryDir dir;
    QString put(const QString& name, const QByteArray& bytes) {
        QFile file(dir.filePath(name));
        if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size()) qFatal("cannot write %s", qPrintable(name));
        return file.fileName();
    }
    QString why(const QString& file) {
        const auto photo = preparePhoto(file);
        return photo ? QString() : sentence(photo.error());
    }

private Q_SLOTS:
    void metadataGoesAndThePictureStandsUpright() {
        const QString file = put(QStringLiteral("held.jpg"), fromCamera(twoColours(400, 200)));
        QVERIFY(bytesOfFile(file).contains("SECRET OWNER"));
        const auto photo = preparePhoto(file);
        QVERIFY2(photo, qPrintable(why(file)));
        for (const char* left : {"SECRET", "Exif", "ICC_PROFILE"}) QVERIFY2(!photo->jpeg.contains(left), left);
        // Orientation 6: turned a quarter clockwise, so the left half is the upper one.
        QCOMPARE(photo->image.size(), QSize(200, 400));
        QVERIFY(photo->image.pixelColor(100, 50).red() > 200);
        QVERIFY(photo->image.pixelColor(100, 350).blue() > 200);
        QCOMPARE(photo->sha256, QString::fromLatin1(QCryptographicHash::hash(photo->jpeg, QCryptographicHash::Sha256).toHex()));
        QCOMPARE(QImage::fromData(photo->jpeg, "jpeg").size(), QSize(200, 400));
    }
    void contentCountsAndNotTheName() {
        QVERIFY(preparePhoto(put(QStringLiteral("really-png.jpg"), bytesOf(twoColours(40, 40), "png"))));
        QVERIFY(preparePhoto(put(QStringLiteral("no-suffix"), bytesOf(twoColours(40, 40), "jpeg"))));
        QVERIFY(why(put(QStringLiteral("bitmap.jpg"), bytesOf(twoColours(40, 40), "bmp"))).contains("neither a JPEG nor a PNG"));
        QVERIFY(why(put(QStringLiteral("text.png"), "just words")).contains("neither"));
        QVERIFY(why(put(QStringLiteral("drawing.jpg"), "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>")).contains("neither"));
        QVERIFY(why(put(QStringLiteral("empty.jpg"), {})).contains("neither"));
        QVERIFY(why(dir.filePath(QStringLiteral("not-there.jpg"))).contains("cannot be read"));
        QVERIFY(why(dir.path()).contains("cannot be read"));
    }
    void damagedAndOversizedAreRefused() {
        const QByteArray png = bytesOf(twoColours(300, 300), "png");
        QVERIFY(why(put(QStringLiteral("half.png"), png.left(png.size() / 2))).contains("damaged"));
        // A header that promises 60,000 × 60,000 points, as a trap would: refused before anything is unpacked.
        QByteArray huge = png;
        huge.replace(16, 8, QByteArray("\x00\x00\xea\x60\x00\x00\xea\x60", 8));
        QVERIFY2(!why(put(QStringLiteral("huge.png"), huge)).isEmpty(), "huge");
        QVERIFY(why(put(QStringLiteral("long.jpg"), QByteArray(static_cast<qsizetype>(largestPhotoFile) + 1, 'x'))).contains("MB"));
        for (const char* format : {"png", "jpeg"}) {
            const QByteArray whole = bytesOf(twoColours(64, 48), format);
            for (qsizetype cut = 0; cut < whole.size(); cut += longRun() ? 1 : 37) preparePhoto(put(QStringLiteral("cut"), whole.left(cut)));
        }
    }
    void largeOnesAreScaledDown() {
        for (const char* format : {"png", "jpeg"}) {
            const auto photo = preparePhoto(put(QStringLiteral("large"), bytesOf(twoColours(4096, 1024), format)));
            QVERIFY(photo);
            QCOMPARE(photo->image.size(), QSize(longestPhotoSide, longestPhotoSide / 4));
        }
        QImage clear(30, 30, QImage::Format_ARGB32);
        clear.fill(Qt::transparent);
        const auto photo = preparePhoto(put(QStringLiteral("clear.png"), bytesOf(clear, "png")));
        QVERIFY(photo && photo->image.pixelColor(10, 10) == QColor(Qt::white));
    }
    void keptFilesAreCheckedWheneverTheyAreRead() {
        const QString folder = dir.filePath(QStringLiteral("kept"));
        const auto photo = preparePhoto(put(QStringLiteral("a.png"), bytesOf(twoColours(50, 50), "png")));
        QVERIFY(photo);
        QVERIFY(keptPhoto(folder, photo->sha256).error().reason.contains("missing"));
        QCOMPARE(*keepPhoto(folder, *photo), photo->sha256);
        QCOMPARE(*keepPhoto(folder, *photo), photo->sha256); // the same again
        QCOMPARE(*keptPhoto(folder, photo->sha256), photo->jpeg);
        QFile file(QDir(folder).filePath(photo->sha256 + QStringLiteral(".jpg")));
        QVERIFY(file.open(QIODevice::Append) && file.write("x") == 1);
        file.close();
        QVERIFY(keptPhoto(folder, photo->sha256).error().reason.contains("changed"));
        QCOMPARE(*keepPhoto(folder, *photo), photo->sha256); // given once more, it is put right
        QVERIFY(keptPhoto(folder, photo->sha256));
        for (const QString& name : {QString(), QStringLiteral("../../etc/passwd"), QString(64, QLatin1Char('G'))})
            QVERIFY(!keptPhoto(folder, name));
        QVERIFY(!keepPhoto(file.fileName() + QStringLiteral("/below-a-file"), *photo));
    }
    void photosLieBesideTheLedger() {
        const QString file = dir.filePath(QStringLiteral("shop.sqlite"));
        {
            const auto store = openSqliteStore(file, QStringLiteral("f"), QStringLiteral("pc"));
            QVERIFY(store);
            QCOMPARE(photoFolder(**store, QStringLiteral("f")), file + QStringLiteral(".photos"));
        }
        const auto reading = openSqliteStore(file, QStringLiteral("f"), QStringLiteral("pc"), true);
        QVERIFY(reading);
        QCOMPARE(photoFolder(**reading, QStringLiteral("f")), file + QStringLiteral(".photos"));
        QVERIFY(photoFolder(*makeMemoryStore(QStringLiteral("f")), QStringLiteral("f")).endsWith(QStringLiteral("/interlude/f/photos")));
    }
    void theFieldNamesWhatIsNoPhoto() {
        PhotoField field;
        const QString good = put(QStringLiteral("good.jpg"), bytesOf(twoColours(60, 40), "jpeg"));
        field.addFiles({good, put(QStringLiteral("bad.jpg"), "words"), good});
        QCOMPARE(field.photos().size(), 1);
        QVERIFY2(field.said().contains("bad.jpg"), qPrintable(field.said()));
        QStringList many;
        for (int i = 0; i < mostPhotos + 2; ++i)
            many << put(QStringLiteral("n%1.png").arg(i), bytesOf(twoColours(20 + i, 20), "png"));
        field.addFiles(many);
        QCOMPARE(field.photos().size(), mostPhotos);
        QVERIFY(field.said().contains(QString::number(mostPhotos)));
        for (QPushButton* b : field.findChildren<QPushButton*>())
            if (b->accessibleName() == QStringLiteral("Leave out good.jpg")) b->click();
        QCOMPARE(field.photos().size(), mostPhotos - 1);
    }

    void fromTheProblemToTheBundle() {
        SampleBench sample;
        QVERIFY2(sample.catalogue, qPrintable(sample.problems));
        PageDriver d(sample);
        d.choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        d.start();
        d.click(QStringLiteral("problemButton"));
        auto* dialog = d.page->findChild<AskDialog*>(QStringLiteral("problemDialog"));
        QVERIFY(dialog);
        dialog->findChild<QPlainTextEdit*>(QStringLiteral("problemNote"))->setPlainText(QStringLiteral("crack in the sheet"));
        dialog->findChild<PhotoField*>()->addFiles({put(QStringLiteral("1.jpg"), fromCamera(twoColours(400, 300))),
                                                    put(QStringLiteral("2.png"), bytesOf(twoColours(90, 300), "png"))});
        QTest::mouseClick(dialog->acceptButton(), Qt::LeftButton);
        const SessionState& s = *d.session();
        QCOMPARE(s.problems.size(), 1);
        QCOMPARE(s.problems.first().what.photos.size(), 2);

        Record record = recordWithPhotos(*sample.workbench, s);
        QVERIFY(record.problems.first().contains("crack in the sheet (photo 1, photo 2)"));
        QCOMPARE(toJson(record).value(QStringLiteral("photos")).toArray().at(1)[QStringLiteral("sha256")].toString(),
                 s.problems.first().what.photos.at(1));
        QVERIFY(photoFaults(record).isEmpty());
        const QString folder = dir.filePath(QStringLiteral("bundle"));
        const auto files = paper::writeBundle(record, folder);
        QVERIFY2(files, files ? "" : qPrintable(sentence(files.error())));
        QVERIFY(files->contains(QDir(folder).filePath(QStringLiteral("photo-2.jpg"))));
        QProcess sums;
        sums.setWorkingDirectory(folder);
        sums.start(QStringLiteral("sha256sum"), {QStringLiteral("-c"), QStringLiteral("sha256sums.txt")});
        QVERIFY(sums.waitForFinished() && sums.exitCode() == 0);
        QVERIFY(bytesOfFile(folder + QStringLiteral("/sha256sums.txt")).contains(s.problems.first().what.photos.at(0).toLatin1() + "  photo-1.jpg"));
        QVERIFY(pdfText(folder + QStringLiteral("/record.pdf")).contains(QStringLiteral("Photo 2, of problem 1")));

        // One lost, one replaced by another picture.
        const QString first = QDir(record.photoFolder).filePath(s.problems.first().what.photos.at(0) + QStringLiteral(".jpg"));
        const QString second = QDir(record.photoFolder).filePath(s.problems.first().what.photos.at(1) + QStringLiteral(".jpg"));
        QVERIFY(QFile::remove(first));
        QFile other(second);
        QVERIFY(other.open(QIODevice::WriteOnly) && other.write(bytesOf(twoColours(8, 8), "jpeg")) > 0);
        other.close();
        QCOMPARE(photoFaults(record).size(), 2);
        const QString again = dir.filePath(QStringLiteral("again"));
        const auto without = paper::writeBundle(record, again);
        QVERIFY(without);
        QCOMPARE(without->size(), 3);
        const QString text = pdfText(again + QStringLiteral("/record.pdf")).simplified();
        QVERIFY2(text.contains("The photo is missing") && text.contains("The photo was changed"), qPrintable(text));
        QDir(record.photoFolder).removeRecursively();
    }
    void aStopCanShowItsReason() {
        SampleBench sample;
        PageDriver d(sample);
        d.choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        d.start();
        const qint64 session = d.session()->number;
        d.page->findChild<QAction*>(QStringLiteral("stopAction"))->trigger();
        auto* dialog = d.page->findChild<AskDialog*>(QStringLiteral("problemDialog"));
        dialog->findChild<QPlainTextEdit*>(QStringLiteral("problemNote"))->setPlainText(QStringLiteral("door seal torn"));
        dialog->findChild<PhotoField*>()->addFiles({put(QStringLiteral("s.jpg"), bytesOf(twoColours(40, 30), "jpeg"))});
        QTest::mouseClick(dialog->acceptButton(), Qt::LeftButton);
        const SessionState* s = sample.shop().session(session);
        QVERIFY(!s->isOpen());
        QCOMPARE(s->problems.size(), 1);
        QVERIFY(s->problems.first().what.stop && s->problems.first().what.photos.size() == 1);
    }

private:
    static QByteArray bytesOfFile(const QString& name) {
        QFile file(name);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
};
INTERLUDE_TEST(PhotoTest)
#include "photo_test.moc"
