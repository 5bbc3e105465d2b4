#pragma once
// The sample fleet opened on a ledger in memory with a clock that stands, and a bench over it.

#include "model/catalogue/reader.h"
#include "views/bench/bench.h"
#include "views/bench/remembered.h"
#include "views/look/look.h"

#include <QApplication>
#include <QtTest>

namespace interlude::tests {

struct OpenedShop {
    // Monday 2026-03-02 06:30 UTC and a little: within the example's first shift.
    ManualClock clock{instantFromMs(1772433000000)};
    Problems warnings;
    std::unique_ptr<Workbench> workbench;
    std::unique_ptr<Bench> bench;

    /// False (with the reason in `why`) when the fleet cannot be opened.
    bool open(QString* why = nullptr, const QString& folder = QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet")) {
        remembered()->clear();
        look::apply(*qApp, look::Theme::Light);
        CatalogueReading reading = readFleetFolder(folder);
        warnings = reading.problems;
        if (!reading.catalogue) {
            if (why) *why = reading.problems.isEmpty() ? QStringLiteral("no catalogue") : reading.problems.first().text();
            return false;
        }
        auto opened = Workbench::open(reading.catalogue, makeMemoryStore(reading.catalogue->fleet.id), clock,
                                      QStringLiteral("test-pc"));
        if (!opened) {
            if (why) *why = sentence(opened.error());
            return false;
        }
        workbench = std::move(*opened);
        bench = std::make_unique<Bench>(*workbench);
        return true;
    }

    QString somebody() const { return bench->catalogue().fleet.people.first().initials; }
    qint64 events() const { return bench->shop().lastSequence(); }
};

/// The sample fleet opened; without it the program of the tests ends, saying why.
inline std::unique_ptr<OpenedShop> openedShop() {
    auto shop = std::make_unique<OpenedShop>();
    QString why;
    if (!shop->open(&why)) qFatal("%s", qPrintable(why));
    return shop;
}

/// Shows it that large; true once keys go to it.
inline bool showActive(QWidget& window, const QSize& size) {
    window.resize(size);
    window.show();
    return QTest::qWaitForWindowActive(&window);
}

/// The dialog now open of this type, or null.
template <typename T> T* openDialog() {
    for (QWidget* w : QApplication::topLevelWidgets())
        if (auto* d = qobject_cast<T*>(w); d && d->isVisible()) return d;
    return nullptr;
}

/// Types into whatever has the focus, as a keyboard or a scanner does.
inline void type(const QString& text) {
    QTest::keyClicks(QApplication::focusWidget(), text);
}
inline void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    QTest::keyClick(QApplication::focusWidget(), key, with);
}
/// A scanner: the text, then Enter.
inline void scan(const QString& text) {
    type(text);
    press(Qt::Key_Return);
}
/// The field that has the focus, by the name said to people.
inline QString focusName() {
    return QApplication::focusWidget() ? QApplication::focusWidget()->accessibleName() : QString();
}

} // namespace interlude::tests
