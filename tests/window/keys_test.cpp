// The list of keys: what may be a key and what may not, conflicts, remembering, and the dialog in which they are changed.

#include "tests/harness/run_tests.h"
#include "tests/window/keys_page.h"
#include "tests/window/opened_shop.h"
#include "views/asking/ask_dialog.h"
#include "views/bench/key_list.h"
#include "views/changeover/scan_field.h"
#include "views/lists/list_view.h"
#include "views/paper/paper.h"
#include "views/today/wall_view.h"
#include "views/window/key_field.h"
#include "views/window/keys_dialog.h"
#include "views/window/main_window.h"
#include "views/window/paper_choice.h"
#include "views/window/screen_size.h"

#include <QComboBox>
#include <QDirIterator>
#include <QLineEdit>
#include <QPushButton>
#include <QRegularExpression>
#include <QScreen>
#include <QShortcut>
#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::tests;

namespace {

QKeySequence key(const char* text) {
    return QKeySequence(QString::fromLatin1(text));
}
QString id(const char* text) {
    return QString::fromLatin1(text);
}

/// The first MediaBox of a PDF, in whole points: "595 842".
struct PdfSize {
    explicit PdfSize(const QString& file) {
        QFile pdf(file);
        if (!pdf.open(QIODevice::ReadOnly)) return;
        static const QRegularExpression media(QStringLiteral("MediaBox \\[0 0 ([0-9.]+) ([0-9.]+)"));
        const auto found = media.match(QString::fromLatin1(pdf.readAll()));
        box = QStringLiteral("%1 %2").arg(qRound(found.captured(1).toDouble())).arg(qRound(found.captured(2).toDouble()));
    }
    QString box;
};

} // namespace

class KeysTest final : public QObject {
    Q_OBJECT
private:
    QString why(const char* use, const char* wanted) {
        const auto against = keys().objection(id(use), key(wanted));
        return against ? sentence(*against) : QString();
    }

private Q_SLOTS:
    void init() {
        remembered()->clear();
        keys().reload();
    }
    void cleanup() { init(); }

    void presetsStandAgainstNothing() {
        QSet<QString> ids;
        for (const Keys::Use& u : keys().uses()) {
            QVERIFY2(!ids.contains(u.id), qPrintable(u.id));
            ids.insert(u.id);
            QVERIFY2(!u.does.isEmpty() && !u.presets.isEmpty(), qPrintable(u.id));
            if (u.kind == Keys::Kind::Fixed) continue;
            const auto against = keys().objection(u.id, u.presets.first());
            QVERIFY2(!against, qPrintable(u.id + (against ? sentence(*against) : QString())));
        }
    }
    void theHelpPageListsThem() {
        const std::pair<Keys::Scope, const char*> parts[] = {
            {Keys::Scope::Window, "Keys"},  {Keys::Scope::Changeover, "In a changeover"}, {Keys::Scope::Plan, "In the plan"},
            {Keys::Scope::List, "In lists"}, {Keys::Scope::Text, "In text"},              {Keys::Scope::Form, "In forms"}};
        for (const auto& [scope, heading] : parts) {
            QSet<QString> here;
            for (const Keys::Use& u : keys().uses())
                if (u.scope == scope)
                    for (const QKeySequence& k : u.presets) here.insert(k.toString().replace("Return", "Enter"));
            if (scope == Keys::Scope::List) here.insert(QStringLiteral("Ctrl+C")); // said there, too
            QSet<QString> page = keysBelow(QString::fromLatin1(heading));
            if (page.remove(QStringLiteral("Ctrl+Return"))) page.insert(QStringLiteral("Ctrl+Enter"));
            QCOMPARE(page, here);
        }
    }

    void noKeyIsWrittenDownElsewhere() {
        // A tip that names a key would be wrong as soon as a person changed it.
        static const QRegularExpression written(QStringLiteral("\"[^\"\\n]*(Ctrl\\+[A-Z]|\\(F\\d)|QShortcut\\(QKeySequence"));
        QDirIterator files(QStringLiteral(INTERLUDE_SOURCE_DIR "/views"), {"*.cpp"}, QDir::Files, QDirIterator::Subdirectories);
        int looked = 0;
        while (files.hasNext()) {
            QFile file(files.next());
            if (file.fileName().endsWith("/bench/key_list.cpp")) continue;
            QVERIFY(file.open(QIODevice::ReadOnly));
            const auto found = written.match(QString::fromUtf8(file.readAll()));
            QVERIFY2(!found.hasMatch(), qPrintable(file.fileName() + ": " + found.captured(0)));
            ++looked;
        }
        QVERIFY(looked > 100);
    }

    void aConflictNamesTheOther() {
        QVERIFY2(why("plan.lock", "Ctrl+M").contains("improve"), qPrintable(why("plan.lock", "Ctrl+M")));
        QVERIFY(why("plan.lock", "Ctrl+M").contains("in the plan"));
        QVERIFY(why("plan.lock", "F1").contains("help"));
        QVERIFY(why("help", "Ctrl+M").contains("improve")); // the window's hold everywhere
        QVERIFY(why("help", "Ctrl+C").contains("copies"));
        QVERIFY(why("guide.yes", "F3").contains("answers no"));
        QVERIFY(why("guide.yes", "F1").contains("help"));
        // Never held at once: lists and plan both filter with Ctrl+F.
        QCOMPARE(why("list.filter", "Ctrl+M"), QString());
        QVERIFY(keys().set(id("plan.lock"), key("Ctrl+M")));
        QCOMPARE(keys().of(id("plan.lock")), key("Ctrl+L"));
    }
    void whatTypesIsNoKey() {
        for (const char* wanted : {"A", "7", "Shift+A", "Space", "Ä", "/"}) QVERIFY2(!why("theme", wanted).isEmpty(), wanted);
        for (const char* wanted : {"Alt+A", "Ctrl+Alt+Q", "Meta+B", "Tab", "Esc", "Left", "Backspace", "Return", "Ctrl+K, Ctrl+B"})
            QVERIFY2(!why("theme", wanted).isEmpty(), wanted);
        for (const char* wanted : {"Ctrl+J", "Ctrl+Shift+D", "F9", "Shift+F9", "Alt+F9", "Ctrl+7"})
            QVERIFY2(why("theme", wanted).isEmpty(), qPrintable(why("theme", wanted)));
        QVERIFY(!why("text.copy", "Ctrl+J").isEmpty()); // fixed
        QVERIFY(!why("nothing", "Ctrl+J").isEmpty());
    }
    void nothingThatAScannerSendsConfirms() {
        for (const char* use : {"guide.confirm", "guide.yes", "guide.no"}) {
            for (int code = 0x20; code < 0x7f; ++code)
                for (const Qt::KeyboardModifiers with : {Qt::KeyboardModifiers(), Qt::KeyboardModifiers(Qt::ShiftModifier),
                                                         Qt::KeyboardModifiers(Qt::ControlModifier)}) // Ctrl: control characters
                    QVERIFY2(keys().objection(id(use), QKeySequence(QKeyCombination(with, static_cast<Qt::Key>(code)))),
                             qPrintable(QString(QChar(code))));
            QVERIFY2(!why(use, "Tab").isEmpty(), use);
            QVERIFY2(!keys().objection(id(use), key("F8")), use);
            QVERIFY2(keys().objection(id(use), {}), "the guide needs its keys");
        }
        // Every scan ends with Enter: it may confirm (on an empty line), but never answer.
        QVERIFY(why("guide.confirm", "Return").isEmpty());
        QVERIFY(!why("guide.yes", "Return").isEmpty());
    }

    void whatIsChosenHoldsAtOnceAndIsRemembered() {
        QWidget owner;
        QShortcut* improve = onKey(id("plan.improve"), &owner);
        QCOMPARE(improve->key(), key("Ctrl+M"));
        QVERIFY(!keys().set(id("plan.improve"), key("Ctrl+J")));
        QCOMPARE(improve->key(), key("Ctrl+J"));
        QCOMPARE(keyHint(id("plan.improve")), QStringLiteral(" (Ctrl+J)"));
        keys().reload(); // as at the next start
        QCOMPARE(keys().of(id("plan.improve")), key("Ctrl+J"));
        // Its preset is free now, and taken by another: then it cannot go back.
        QVERIFY(!keys().set(id("plan.lock"), key("Ctrl+M")));
        const auto refused = keys().reset(id("plan.improve"));
        QVERIFY(refused && refused->reason.contains("lock"));
        keys().reload(); // two that changed places are both read
        QCOMPARE(keys().of(id("plan.lock")), key("Ctrl+M"));
        QVERIFY(!keys().set(id("plan.worth"), {}));
        QVERIFY(keyHint(id("plan.worth")).isEmpty());
        keys().resetAll();
        QCOMPARE(improve->key(), key("Ctrl+M"));
        QCOMPARE(keys().of(id("plan.worth")), key("Ctrl+E"));
        QVERIFY(remembered()->allKeys().filter(QStringLiteral("keys/")).isEmpty());
    }
    void aSpoiledSettingIsPassedOver() {
        remembered()->setValue("keys/guide.confirm", "X");
        remembered()->setValue("keys/theme", "F1");
        remembered()->setValue("keys/reload", "no key at all");
        remembered()->setValue("keys/stranger", "F9");
        keys().reload();
        QCOMPARE(keys().of(id("guide.confirm")), key("Return"));
        QCOMPARE(keys().of(id("theme")), key("Ctrl+D"));
        QCOMPARE(keys().of(id("reload")), key("F5"));
    }

    void theDialogTakesAKeyAsItIsPressed() {
        OpenedShop shop;
        QString reason;
        QVERIFY2(shop.open(&reason), qPrintable(reason));
        MainWindow window(*shop.bench);
        window.show();
        auto* dialog = new KeysDialog(&window);
        dialog->open();
        QVERIFY(dialog->list()->select(id("theme")));
        dialog->field()->setFocus();
        QTest::keyClick(dialog->field(), Qt::Key_F1);
        QVERIFY2(dialog->said().contains("help for this tab"), qPrintable(dialog->said()));
        QCOMPARE(keys().of(id("theme")), key("Ctrl+D"));
        QTest::keyClick(dialog->field(), Qt::Key_J, Qt::ControlModifier);
        QCOMPARE(keys().of(id("theme")), key("Ctrl+J"));
        QVERIFY2(dialog->said().contains("It was Ctrl+D"), qPrintable(dialog->said()));
        QVERIFY(dialog->list()->currentKey() == id("theme"));
        dialog->findChild<QPushButton*>(QStringLiteral("keyReset"))->click();
        QCOMPARE(keys().of(id("theme")), key("Ctrl+D"));
        QTest::keyClick(dialog->field(), Qt::Key_Delete);
        QVERIFY(keys().of(id("theme")).isEmpty());
        dialog->findChild<QPushButton*>(QStringLiteral("keysReset"))->click();
        QCOMPARE(keys().of(id("theme")), key("Ctrl+D"));
        QVERIFY(dialog->list()->select(id("text.copy")));
        QVERIFY(!dialog->field()->isEnabled());
        dialog->accept();
    }
    void aChangedKeyWorksInTheWindow() {
        OpenedShop shop;
        QVERIFY(shop.open());
        MainWindow window(*shop.bench);
        window.show();
        QVERIFY(QTest::qWaitForWindowActive(&window));
        QVERIFY(!keys().set(id("tab.stock"), key("F7")));
        QTest::keyClick(&window, Qt::Key_4, Qt::ControlModifier);
        QCOMPARE(window.currentTab(), id("today"));
        QTest::keyClick(&window, Qt::Key_F7);
        QCOMPARE(window.currentTab(), id("stock"));
    }
    void theWallViewComesAndGoesByKey() {
        OpenedShop shop;
        QVERIFY(shop.open());
        MainWindow window(*shop.bench);
        window.show();
        QVERIFY(QTest::qWaitForWindowActive(&window));
        for (const Qt::Key leave : {Qt::Key_F11, Qt::Key_Escape}) {
            QTest::keyClick(&window, Qt::Key_F11);
            auto* wall = window.findChild<WallView*>();
            QVERIFY(wall && wall->isVisible() && wall->isFullScreen());
            QApplication::setActiveWindow(wall); // what a window system does and the offscreen one does not
            QTest::keyClick(wall, leave);
            QVERIFY2(!wall->isVisible(), qPrintable(QKeySequence(leave).toString()));
            QTRY_VERIFY(!window.findChild<WallView*>());
            QApplication::setActiveWindow(&window);
        }
        QTest::keyClick(&window, Qt::Key_F11);
        QTest::keyClick(&window, Qt::Key_F11); // the window has the keys still
        QTRY_VERIFY(!window.findChild<WallView*>());
    }
    void aWallViewOutlivesNoWindow() {
        OpenedShop shop;
        QVERIFY(shop.open());
        auto window = std::make_unique<MainWindow>(*shop.bench);
        window->show();
        QVERIFY(QTest::qWaitForWindowActive(window.get()));
        QTest::keyClick(window.get(), Qt::Key_F11);
        QPointer<WallView> wall = window->findChild<WallView*>();
        QVERIFY(wall);
        window.reset();
        QVERIFY(!wall);
        shop.bench->tick();
    }
    void anotherConfirmingKeyLeavesEnterToScans() {
        const ManualClock clock{instantFromMs(1772433000000)};
        ScanField field(clock);
        QSignalSpy asked(&field, &ScanField::confirmAsked), entered(&field, &ScanField::entered), yes(&field, &ScanField::yes);
        QTest::keyClick(field.line(), Qt::Key_Return);
        QCOMPARE(asked.size(), 1); // as preset: an empty Enter
        QVERIFY(!keys().set(id("guide.confirm"), key("F8")));
        QVERIFY(!keys().set(id("guide.yes"), key("F9")));
        QTest::keyClick(field.line(), Qt::Key_Return);
        QTest::keyClick(field.line(), Qt::Key_Enter, Qt::KeypadModifier);
        QCOMPARE(asked.size(), 1); // a scanner that sends Enter twice confirms nothing
        QTest::keyClick(field.line(), Qt::Key_F8);
        QCOMPARE(asked.size(), 2);
        QTest::keyClicks(field.line(), QStringLiteral("N-11"));
        QTest::keyClick(field.line(), Qt::Key_F8);
        QCOMPARE(asked.size(), 2); // a scan that is not ended is not passed over
        QCOMPARE(field.line()->text(), QStringLiteral("N-11"));
        QTest::keyClick(field.line(), Qt::Key_Return);
        QCOMPARE(entered.size(), 1);
        QTest::keyClick(field.line(), Qt::Key_F2);
        QCOMPARE(yes.size(), 0);
        QTest::keyClick(field.line(), Qt::Key_F9);
        QCOMPARE(yes.size(), 1);
    }
    void paperFollowsWhatWasChosen() {
        QCOMPARE(paper::usualSize(), paper::Size::A4); // tests run where no territory is set
        AskDialog* ask = askPaper(nullptr);
        ask->findChild<QComboBox*>(QStringLiteral("paperSize"))->setCurrentIndex(1);
        ask->acceptButton()->click();
        QCOMPARE(paper::usualSize(), paper::Size::Letter);
        QTemporaryDir dir;
        QVERIFY(paper::writeLabelsPdf({{QStringLiteral("N-1"), QStringLiteral("a"), QStringLiteral("b")}}, dir.filePath("l.pdf")));
        PdfSize size(dir.filePath("l.pdf"));
        QCOMPARE(size.box, QStringLiteral("612 792"));
        paper::keepUsualSize(paper::Size::A4);
        QVERIFY(paper::writeLabelsPdf({{QStringLiteral("N-1"), QStringLiteral("a"), QStringLiteral("b")}}, dir.filePath("a.pdf")));
        QCOMPARE(PdfSize(dir.filePath("a.pdf")).box, QStringLiteral("595 842"));
    }
    void aScreenThatLiesIsMeasured() {
        QWidget parent;
        parent.show();
        AskDialog* ask = askScreenSize(&parent);
        auto* width = ask->findChild<QLineEdit*>(QStringLiteral("screenWidth"));
        width->setText(QStringLiteral("ten"));
        ask->acceptButton()->click();
        QVERIFY(ask->isVisible());
        width->setText(QStringLiteral("1218"));
        ask->acceptButton()->click();
        QCOMPARE(WallView::measuredWidth(parent.screen()->name()), std::optional(1218.0));
    }
    void theListGoesOnPaper() {
        QVERIFY(!keys().set(id("theme"), key("Ctrl+J")));
        for (const paper::Size size : {paper::Size::A4, paper::Size::Letter}) {
            QTemporaryDir dir;
            const auto pages = paper::writePdf(keysSheet(size), QStringLiteral("Keys"), dir.filePath("keys.pdf"), size);
            QVERIFY(pages);
            QVERIFY2(*pages >= 1 && *pages <= 3, qPrintable(QString::number(*pages)));
        }
    }
};
INTERLUDE_TEST(KeysTest)
#include "keys_test.moc"
