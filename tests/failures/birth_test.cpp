// A new ledger is made while the disk fails or the power goes at every n-th change: afterwards there is a whole ledger or
// none, the next opening succeeds, and what was confirmed is in it.
#include "tests/failures/disk.h"
#include "tests/harness/run_tests.h"
#include "tests/ledger/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

struct Born {
    qint64 confirmed = 0;
    QString wrong;
};

Born bear(const QString& file) {
    Born born;
    const auto clear = [&](const Finding& f) {
        if (f.rule.startsWith(QStringLiteral("ledger-")) && !f.reason.isEmpty() && !f.remedy.isEmpty()) return;
        born.wrong = QStringLiteral("an unclear refusal: ") + f.rule + QStringLiteral(": ") + sentence(f);
    };
    auto store = opened(file);
    if (!store) return clear(store.error()), born;
    for (int n = 1; n <= 3; ++n) {
        const auto kept = (*store)->append(numbered(n));
        if (!kept) return clear(kept.error()), born;
        born.confirmed = kept->sequence;
    }
    return born;
}

QString grownUp(const QString& file, qint64 confirmed) {
    const auto store = opened(file);
    if (!store) return sentence(store.error());
    if (const auto misfit = (*store)->verify()) return misfit->reason;
    if ((*store)->lastSequence() < confirmed) return QStringLiteral("%1 of %2 events").arg((*store)->lastSequence()).arg(confirmed);
    const auto more = (*store)->append(numbered(9));
    return more ? QString() : sentence(more.error());
}

} // namespace

class BirthTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void cleanup() { disk::release(); }

    void aLedgerIsBornWholeOrNotAtAll_data() {
        QTest::addColumn<int>("trouble");
        QTest::addColumn<bool>("onwards");
        for (const bool onwards : {false, true})
            for (const auto& [name, trouble] : {std::pair("an error", disk::Trouble::Error), std::pair("the disk full", disk::Trouble::Full),
                                                std::pair("no right to open", disk::Trouble::Forbidden)})
                QTest::addRow("%s, %s", name, onwards ? "from then on" : "once") << static_cast<int>(trouble) << onwards;
        QTest::newRow("the power goes") << static_cast<int>(disk::Trouble::Power) << true;
    }
    void aLedgerIsBornWholeOrNotAtAll() {
        QFETCH(int, trouble);
        QFETCH(bool, onwards);
        std::mt19937 random(14);
        int n = 0, made = 0;
        for (bool struck = true; struck; made += struck) {
            const Folder folder;
            disk::watch(folder.dir.path());
            disk::strike(++n, static_cast<disk::Trouble>(trouble), onwards);
            const Born born = bear(folder.file());
            struck = !disk::struck().isEmpty();
            const QString where = QStringLiteral("change %1 (%2): ").arg(n).arg(disk::struck());
            QVERIFY2(born.wrong.isEmpty(), qPrintable(where + born.wrong));
            if (trouble == static_cast<int>(disk::Trouble::Power)) {
                for (const disk::Loss loss : {disk::Loss::All, disk::Loss::None, disk::Loss::Torn}) {
                    const Folder image;
                    disk::leave(image.dir.path(), loss, random);
                    const QString wrong = grownUp(image.file(), born.confirmed);
                    QVERIFY2(wrong.isEmpty(), qPrintable(where + QString::number(static_cast<int>(loss)) + QLatin1Char(' ') + wrong));
                }
            } else {
                disk::heal();
                const QString wrong = grownUp(folder.file(), born.confirmed);
                QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong));
            }
            disk::release();
        }
        QVERIFY(made > 20);
        qInfo("%d changes from nothing to three events", made);
    }
};
INTERLUDE_TEST(BirthTest)
#include "birth_test.moc"
