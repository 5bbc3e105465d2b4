#pragma once
// Drives the real Changeover page the way a person does: keys and scans into whatever has the focus, or the mouse.

#include "tests/changeover_page/sample_bench.h"

#include "views/changeover/changeover_page.h"
#include "views/changeover/confirm_button.h"
#include "views/changeover/guide_panel.h"
#include "views/changeover/start_panel.h"

#include <QApplication>
#include <QLineEdit>
#include <QPushButton>

namespace interlude::tests {

class PageDriver {
public:
    /// The page alone, as a window of its own.
    explicit PageDriver(SampleBench& sample)
        : PageDriver(sample, new ChangeoverPage(*sample.bench)) {
        alone.reset(page);
        page->resize(1366, 690);
        page->show();
        Q_UNUSED(QTest::qWaitForWindowActive(page));
    }
    /// A page that stands in a window; borrowed.
    PageDriver(SampleBench& sample, ChangeoverPage* page) : sample(sample), page(page) {}

    template <typename T> T* find(const QString& name) const {
        T* found = nullptr;
        for (T* w : page->findChildren<T*>(name))
            if (w->isVisibleTo(page)) found = w;
        return found;
    }
    QLineEdit* scanField() const { return page->findChild<QLineEdit*>(QStringLiteral("scanField")); }
    ConfirmButton* confirmButton() const { return page->findChild<ConfirmButton*>(QStringLiteral("confirmButton")); }
    QString confirmText() const { return confirmButton()->fullText(); }
    QString message() const { return page->findChild<QLabel*>(QStringLiteral("scanMessage"))->text(); }
    GuideDesk& desk() const { return page->guidePanel().desk(); }
    const SessionState* session() const { return desk().session(); }

    /// A scanner: all characters at once, then Enter, into what has the focus.
    void scan(const QString& id) {
        QTest::keyClicks(focus(), id);
        QTest::keyClick(focus(), Qt::Key_Return);
    }
    /// Fingers: 150 ms between the keys.
    void type(const QString& text) {
        for (const QChar c : text) {
            sample.clock.advance(Milliseconds(150));
            QTest::keyClick(focus(), c.toLatin1());
        }
        QTest::keyClick(focus(), Qt::Key_Return);
    }
    void key(Qt::Key k) { QTest::keyClick(focus(), k); }
    void click(const QString& name) {
        auto* b = find<QAbstractButton>(name);
        if (!b) qFatal("no visible button %s", qPrintable(name));
        QTest::mouseClick(b, Qt::LeftButton);
        QCoreApplication::processEvents();
    }
    QWidget* focus() const { return QApplication::focusWidget() ? QApplication::focusWidget() : scanField(); }

    /// Opens the start panel on a printer and job; the variant counts from 0.
    void choose(const PrinterId& printer, const JobId& job, int variant = 0) {
        page->showPrinter(printer);
        page->startPanel().chooseJob(job, variant);
        QCoreApplication::processEvents(); // what a layout was given is shown by a posted event
    }
    void start() { click(QStringLiteral("startButton")); }

    /// Gives the first thing that is missing by scanner and keys; true when something was missing.
    bool giveNext() {
        const QList<Missing> all = desk().missing();
        if (all.isEmpty()) return false;
        const Missing& m = all.first();
        const StepTemplate& s = desk().shown()->step;
        switch (m.what) {
        case Missing::What::Measure:
            waitOut(desk().shown()->step.id);
            type(QString::number(static_cast<int>(s.onlyBelow->celsius()) - 2));
            break;
        case Missing::What::Scan: scan(idFor(m.index)); break;
        case Missing::What::Use: key(Qt::Key_F3); break;
        case Missing::What::Answer: key(s.confirm.answers.at(m.index).mustBe.value_or(false) ? Qt::Key_F2 : Qt::Key_F3); break;
        case Missing::What::Reading: type(middle(s.confirm.readings.at(m.index))); break;
        }
        return true;
    }
    /// Does the step in hand; waits are waited out first.
    void doStep() {
        const StepId step = desk().shown()->step.id;
        if (desk().isWaiting()) waitOut(step);
        for (int guard = 0; guard < 40 && giveNext(); ++guard)
            if (!desk().shown() || desk().shown()->step.id != step) return;
        sample.advance(Minutes(1));
        // The minute has made a measured value old; it is taken again, as a person would.
        for (int guard = 0; guard < 4 && giveNext(); ++guard) {}
        key(Qt::Key_Return);
    }
    /// Steps until that one is in hand (or all are done).
    void until(const StepId& step) {
        for (int guard = 0; guard < 120; ++guard) {
            if (!session() || desk().guide().finished || !desk().shown() || desk().shown()->step.id == step) return;
            doStep();
        }
    }
    /// Lets the clock run to the end of a step's countdown.
    void waitOut(const StepId& step) {
        const QList<Countdown> waits = desk().guide().waits; // a copy: moving the clock reckons them anew
        for (const Countdown& c : waits) {
            const bool cooling = c.sensor && desk().shown() && desk().shown()->step.onlyBelow;
            if (c.step != step && !cooling) continue;
            if (c.due && *c.due > sample.bench->now()) sample.advance(*c.due - sample.bench->now() + Seconds(1));
        }
    }
    QString idFor(int index) const {
        const QString expected = desk().shown()->expectedScans.value(index);
        return expected.isEmpty() ? QStringLiteral("sheet") : expected;
    }
    static QString middle(const ReadingWanted& w) {
        const double lo = w.min.value_or(w.max.value_or(0.0)), hi = w.max.value_or(lo);
        return QString::number((lo + hi) / 2.0, 'f', 3);
    }

    SampleBench& sample;
    ChangeoverPage* page;
    std::unique_ptr<ChangeoverPage> alone;
};

} // namespace interlude::tests
