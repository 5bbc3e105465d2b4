#pragma once
// A paused session: who paused, since when, the note, and what the incoming person confirms to be mounted.

#include "views/changeover/guide_desk.h"
#include "views/changeover/scan_slot.h"

class QVBoxLayout;

namespace interlude {

/// What the incoming person has to confirm and what has come so far. Plain, tested.
class TakeOver {
public:
    TakeOver() = default;
    /// `needed`: false for a pause that the same person ends.
    TakeOver(const PrinterNow& printer, bool needed);
    /// Position ("part", "support") → serial expected.
    const QMap<QString, QString>& expected() const { return m_expected; }
    const QMap<QString, act::ScanDone>& given() const { return m_given; }
    /// The first position that is still to confirm; empty when complete.
    QString next() const;
    /// Takes a scan; refused when it is none of what is mounted.
    Outcome<QString> give(const QString& serial, bool typed);
    QMap<QString, QString> mounted() const;

private:
    QMap<QString, QString> m_expected;
    QMap<QString, act::ScanDone> m_given;
};

/// Whether the person who goes on has to confirm what is mounted: after a hand-over, or when it is somebody else.
bool takeOverNeeded(const SessionState& session, const QString& who);

class PausePanel final : public QWidget {
    Q_OBJECT
public:
    explicit PausePanel(GuideDesk& desk, QWidget* parent = nullptr);
    void refresh();
    /// What the confirm button says: "Go on", or "Go on: scan N-118 first".
    QString confirmText() const;
    bool complete() const { return m_takeOver.next().isEmpty(); }
    void enter(const QString& text, bool typed);
    std::optional<Finding> goOn();

private:
    GuideDesk& m_desk;
    QString m_key;
    TakeOver m_takeOver;
    QLabel* m_title;
    QLabel* m_note;
    QLabel* m_ask;
    QVBoxLayout* m_slots;
    QMap<QString, ScanSlot*> m_byPosition;
};

} // namespace interlude
