#pragma once
// Every key of the program in one list: what it does, where it holds, its preset, and the key that this person has chosen
// instead (remembered on this PC). Whoever wants a key asks here; nobody writes one down elsewhere.

#include "model/findings/finding.h"

#include <QKeySequence>
#include <QObject>

#include <optional>

class QKeyEvent;
class QShortcut;
class QWidget;

namespace interlude {

class Keys final : public QObject {
    Q_OBJECT
public:
    /// Where a key holds. Those of the window hold everywhere in it; two that never hold at once may be the same.
    enum class Scope { Window, Changeover, Plan, List, Text, Form };
    /// Free: any key that types nothing. Confirms: records something in the guide, where a scanner types: no key that a
    /// scanner can send. Ends: like Confirms, or Enter. Fixed: as everywhere, not to be changed.
    enum class Kind { Free, Confirms, Ends, Fixed };
    struct Use {
        QString id;
        Scope scope = Scope::Window;
        Kind kind = Kind::Free;
        QString does;
        QList<QKeySequence> presets; ///< several only where Fixed
    };

    Keys();
    const QList<Use>& uses() const { return m_uses; }
    const Use* use(const QString& id) const;
    /// The key that holds now; empty when it was taken away. An id that is not in the list is a fault of the program.
    QKeySequence of(const QString& id) const;
    bool isChanged(const QString& id) const;
    bool matches(const QString& id, const QKeyEvent& event) const;

    /// What stands against this key, in words; nothing where it may be used. An empty key takes it away.
    std::optional<Finding> objection(const QString& id, const QKeySequence& key) const;
    /// The same, and if nothing stands against it the key holds at once and is remembered.
    std::optional<Finding> set(const QString& id, const QKeySequence& key);
    /// Back to the preset; refused when another use has that key now.
    std::optional<Finding> reset(const QString& id);
    void resetAll();
    /// Reads again what is remembered. What is no key or stands against the others there is passed over.
    void reload();

    /// "Ctrl+M", "Enter"; empty without a key.
    static QString text(const QKeySequence& key);
    /// As they are said in a table: "Ctrl+C", "Enter, Space".
    QString textOf(const QString& id) const;
    static QString scopeText(Scope scope);

Q_SIGNALS:
    void changed();

private:
    std::optional<Finding> clash(const Use& use, const QKeySequence& key) const;
    QList<Use> m_uses;
    QHash<QString, QKeySequence> m_chosen;
};

/// Those of this program.
Keys& keys();
/// The key that holds now, for tips and sentences: "Ctrl+M".
QString keyText(const QString& id);
/// " (Ctrl+M)", or nothing where there is no key.
QString keyHint(const QString& id);
/// A shortcut of that use that follows the list; `owner` owns it.
QShortcut* onKey(const QString& id, QWidget* owner, Qt::ShortcutContext context = Qt::WindowShortcut);
/// Key and modifiers of a key press as one sequence; the keypad's Enter is Enter. Empty for modifiers alone.
QKeySequence keyOf(const QKeyEvent& event);

} // namespace interlude
