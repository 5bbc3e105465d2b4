#pragma once
// A tiny shop for the tests: two printers, four materials, five nozzles, four spools, two jobs and a procedure library
// of one step for each effect. All figures are invented and chosen so that the arithmetic can be done in the head.

#include "model/shop/workbench.h"

#include <QTest>

namespace interlude::tests {

inline QString text(const char* s) { return QString::fromLatin1(s); }
/// Monday 2026-03-02T06:00Z plus minutes.
Instant at(int minutes);
Temperature celsius(int c);
Volume cm3(int v);
Mass grams(int g);

std::shared_ptr<Catalogue> tinyCatalogue();
/// The rules of the warnings among them.
QStringList warnings(const Findings& all);
/// One valid value of every kind of happening, each field set to something other than its default.
QList<Happening> everyKind();

/// A shop with a ledger in memory. Times are minutes since `at(0)`.
class World {
public:
    World();
    explicit World(CataloguePtr catalogue);

    const Shop& shop() const { return m_shop; }
    CataloguePtr catalogue() const { return m_catalogue; }
    EventStore& store() { return *m_store; }

    /// What stands against it when it is told then; it happened then, too, unless another minute is given.
    Findings against(const Happening& h, int minute, const QString& who = QStringLiteral("ML"), std::optional<int> happened = {}) const;
    /// The rule of the worst refusal; empty when it may happen.
    QString refusedBy(const Happening& h, int minute, const QString& who = QStringLiteral("ML"), std::optional<int> happened = {}) const;
    /// Checks, appends and folds; fails the test when something stands against it.
    Event tell(const Happening& h, int minute, const QString& who = QStringLiteral("ML"));
    /// The same unchecked.
    Event force(const Happening& h, int minute, const QString& who = QStringLiteral("ML"));

    /// The whole ledger folded from nothing.
    Shop replayed() const;
    QByteArray digest() const { return digestOf(m_shop); }
    static QByteArray digestOf(const Shop& shop);

    const PrinterNow& printer(const char* id) const { return *m_shop.printer(QString::fromLatin1(id)); }
    Spool spool(const char* id) const { return m_shop.stock().spools.value(QString::fromLatin1(id)); }
    Nozzle nozzle(const char* id) const { return m_shop.stock().nozzles.value(QString::fromLatin1(id)); }
    Job job(const char* id) const { return *m_shop.job(QString::fromLatin1(id)); }
    const SessionState& session(qint64 number = 1) const { return *m_shop.session(number); }

    /// The changeover of bay-1 to job J2 (PC with acrylic support) as the printer is now.
    Changeover toJ2(int minute) const;
    act::SessionStarted startJ2(int minute) const;
    /// A confirmation of the step with everything that it asks for.
    act::StepConfirmed confirmation(const StepId& step, int minute, qint64 session = 1) const;
    void confirm(const StepId& step, int minute, qint64 session = 1);
    /// Confirms every step of the session in order, one a minute, up to and without `before`.
    int confirmUntil(const StepId& before, int minute, qint64 session = 1);

private:
    CataloguePtr m_catalogue;
    std::unique_ptr<EventStore> m_store;
    Shop m_shop;
};

} // namespace interlude::tests
