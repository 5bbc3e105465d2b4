#pragma once
// A walk of the QAccessible tree: whatever can have the focus must have a name and a role, so that a screen reader can
// say what it is. Cells without text are exempt.

#include <QAccessible>
#include <QStringList>
#include <QWidget>

#include <functional>

namespace interlude::tests {

/// Calls `visit` for `root` and everything below it that is there for assistive technology.
inline void walkAccessible(QAccessibleInterface* root, const std::function<void(QAccessibleInterface*)>& visit,
                           int depth = 0) {
    if (!root || !root->isValid() || depth > 40) return;
    visit(root);
    for (int i = 0; i < root->childCount(); ++i) walkAccessible(root->child(i), visit, depth + 1);
}

inline bool isCell(QAccessible::Role role) {
    return role == QAccessible::Cell || role == QAccessible::ListItem || role == QAccessible::TreeItem ||
           role == QAccessible::RowHeader || role == QAccessible::ColumnHeader;
}

/// Class names upwards, to find what a complaint is about.
inline QString whereIs(QAccessibleInterface* i) {
    QStringList classes;
    for (QObject* o = i->object(); o && classes.size() < 5; o = o->parent())
        classes.append(QString::fromLatin1(o->metaObject()->className()) +
                       (o->objectName().isEmpty() ? QString() : QStringLiteral("#") + o->objectName()));
    return classes.join(QStringLiteral(" in "));
}

struct AccessibleWalk {
    QStringList faults; ///< one line for each focusable element without name or role
    int focusable = 0;
    int seen = 0;
};

/// Everything below `root` that is shown now: what is hidden cannot have the focus, and may not know its text yet. A test
/// shows each state in turn.
inline AccessibleWalk walkAccessible(QWidget* root) {
    AccessibleWalk walk;
    walkAccessible(QAccessible::queryAccessibleInterface(root), [&walk](QAccessibleInterface* i) {
        ++walk.seen;
        const auto* widget = qobject_cast<QWidget*>(i->object());
        // A widget that is out of use reports no state; its focus policy says what it will be.
        const bool canFocus = i->state().focusable || (widget && widget->focusPolicy() != Qt::NoFocus);
        if (!canFocus || (widget && !widget->isVisible())) return;
        if (isCell(i->role())) return;
        if (widget && widget->focusProxy()) return; // never has the focus itself
        ++walk.focusable;
        if (i->role() == QAccessible::NoRole) walk.faults.append(QStringLiteral("no role: ") + whereIs(i));
        if (i->text(QAccessible::Name).trimmed().isEmpty()) walk.faults.append(QStringLiteral("no name: ") + whereIs(i));
    });
    return walk;
}

} // namespace interlude::tests
