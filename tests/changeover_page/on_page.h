#pragma once
// What the tests of the Changeover page begin and end with: the sample shop and its page, new for each function.

#include "tests/changeover_page/page_driver.h"

#include "views/asking/ask_dialog.h"

namespace interlude::tests {

class OnPage : public QObject {
    Q_OBJECT
protected:
    std::unique_ptr<SampleBench> sample;
    std::unique_ptr<PageDriver> d;

    /// The one of that name that is open; null where none is.
    template <typename T = AskDialog> T* dialog(const QString& name) const {
        for (T* found : d->page->findChildren<T*>(name))
            if (found->isVisible()) return found;
        return nullptr;
    }

private Q_SLOTS:
    void init() {
        sample = std::make_unique<SampleBench>();
        QVERIFY2(sample->catalogue, qPrintable(sample->problems));
        d = std::make_unique<PageDriver>(*sample);
    }
    void cleanup() {
        d.reset();
        sample.reset();
    }
};

} // namespace interlude::tests
