#pragma once
// What every tab shares: the workbench, who is signed in, a tick each second, and requests to the window. Tabs know the
// bench and nothing of each other.

#include "model/shop/workbench.h"

#include <QObject>

namespace interlude {

class Bench final : public QObject {
    Q_OBJECT
public:
    /// `workbench` is borrowed and outlives the bench.
    explicit Bench(Workbench& workbench, QObject* parent = nullptr);

    Workbench& workbench() const { return m_workbench; }
    const Shop& shop() const { return m_workbench.shop(); }
    const Catalogue& catalogue() const { return m_workbench.catalogue(); }
    Instant now() const { return m_workbench.now(); }

    /// Initials; empty = nobody, the window is then read-only.
    QString who() const { return m_who; }
    void signIn(const QString& initials);

    /// Performs the act as the person signed in; a refusal is also shown by the window (signal `refused`).
    Outcome<Event> perform(const Happening& h, std::optional<Instant> happenedAt = {});

    /// Local time in the shop's zone: "10:42", with the day when it is not today: "Thu 04:40", with the date a week and more away.
    QString shortTime(Instant t) const;
    /// "Wed 2026-03-04 10:42".
    QString longTime(Instant t) const;

public Q_SLOTS:
    /// Called by the window's timer once a second, or by a test: watches the clock, then emits `ticked`.
    void tick();

Q_SIGNALS:
    void ticked();
    void signedIn(const QString& initials);
    /// Something was recorded; redraw from `shop()`.
    void changed();
    void refused(const interlude::Finding& finding);
    /// Requests to the window.
    void openChangeover(const QString& printer);
    void openRecord(qint64 session);
    void openHelp(const QString& page);
    /// Sound and flash, only for: a countdown ended, people needed, a wrong scan.
    void attention(const QString& why);
    /// Somebody has done something right at the bench: nobody needs to be called any more.
    void attended();

private:
    Workbench& m_workbench;
    QString m_who;
};

} // namespace interlude
