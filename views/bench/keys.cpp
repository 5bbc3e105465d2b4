#include "views/bench/keys.h"

#include "views/bench/key_list.h"
#include "views/bench/remembered.h"

#include <QKeyEvent>
#include <QShortcut>

namespace interlude {

namespace {

QString settingOf(const QString& id) {
    return QStringLiteral("keys/") + id;
}

Qt::Key keyIn(const QKeySequence& key) {
    return key.isEmpty() ? Qt::Key_unknown : key[0].key();
}
Qt::KeyboardModifiers with(const QKeySequence& key) {
    return key.isEmpty() ? Qt::NoModifier : key[0].keyboardModifiers();
}

bool isFunctionKey(Qt::Key key) {
    return key >= Qt::Key_F1 && key <= Qt::Key_F24;
}

/// Whether a keyboard types a character with it: a letter, a digit, a sign, a space, with or without Shift.
bool types(Qt::Key key) {
    return key >= Qt::Key_Space && key < Qt::Key_Escape;
}

std::optional<Finding> refused(const QString& why, const QString& right) {
    return Finding{Severity::Refusal, QStringLiteral("key"), why, right, {}, false};
}

/// What no use may have, whatever else is taken.
std::optional<Finding> unfit(const Keys::Use& use, const QKeySequence& key) {
    const Qt::Key k = keyIn(key);
    const Qt::KeyboardModifiers m = with(key);
    if (key.count() != 1 || k == Qt::Key_unknown)
        return refused(Keys::tr("That is no single key"), Keys::tr("press one key, alone or with Ctrl, Alt or Shift"));
    if (m & (Qt::MetaModifier | Qt::GroupSwitchModifier))
        return refused(Keys::tr("The system keeps that key for itself"), Keys::tr("take Ctrl instead"));
    if (use.kind == Keys::Kind::Confirms || use.kind == Keys::Kind::Ends) {
        const bool enter = k == Qt::Key_Return && use.kind == Keys::Kind::Ends;
        const bool safe = isFunctionKey(k) || k == Qt::Key_PageUp || k == Qt::Key_PageDown || k == Qt::Key_Insert;
        if (!enter && !safe)
            return refused(Keys::tr("A scanner may send %1, and a scan must never confirm anything").arg(Keys::text(key)),
                           use.kind == Keys::Kind::Ends ? Keys::tr("take Enter, a function key, Insert, Page up or Page down")
                                                        : Keys::tr("take a function key, Insert, Page up or Page down"));
        return std::nullopt;
    }
    if (types(k) && (m & Qt::ControlModifier) && (m & Qt::AltModifier))
        return refused(Keys::tr("Ctrl and Alt together type a character on many keyboards"), Keys::tr("take Ctrl, or Ctrl and Shift"));
    if (types(k) && (m & Qt::AltModifier))
        return refused(Keys::tr("Alt with a letter presses the button with that letter underlined"), Keys::tr("take Ctrl instead"));
    if (types(k) && !(m & Qt::ControlModifier))
        return refused(Keys::tr("%1 types a character").arg(Keys::text(key)), Keys::tr("take it with Ctrl, or a function key"));
    const bool edits = k == Qt::Key_Backspace || k == Qt::Key_Delete || k == Qt::Key_Return || k == Qt::Key_Tab ||
                       k == Qt::Key_Backtab || k == Qt::Key_Escape || k == Qt::Key_Home || k == Qt::Key_End ||
                       (k >= Qt::Key_Left && k <= Qt::Key_Down);
    if (edits && !(m & Qt::ControlModifier))
        return refused(Keys::tr("%1 moves and edits wherever one types").arg(Keys::text(key)), Keys::tr("take it with Ctrl"));
    return std::nullopt;
}

bool holdTogether(Keys::Scope a, Keys::Scope b) {
    using Scope = Keys::Scope;
    if (a == b) return true;
    if (a == Scope::Form || b == Scope::Form) return false; // a form keeps the window's keys out
    return a == Scope::Window || b == Scope::Window || a == Scope::Text || b == Scope::Text;
}

} // namespace

Keys::Keys() : m_uses(allKeys()) {
    reload();
}

const Keys::Use* Keys::use(const QString& id) const {
    for (const Use& u : m_uses)
        if (u.id == id) return &u;
    return nullptr;
}

QKeySequence Keys::of(const QString& id) const {
    const Use* u = use(id);
    Q_ASSERT_X(u, "Keys", qPrintable(id));
    if (!u) return {};
    return m_chosen.contains(id) ? m_chosen.value(id) : u->presets.value(0);
}

bool Keys::isChanged(const QString& id) const {
    return m_chosen.contains(id);
}

bool Keys::matches(const QString& id, const QKeyEvent& event) const {
    const QKeySequence key = of(id);
    return !key.isEmpty() && key == keyOf(event);
}

std::optional<Finding> Keys::clash(const Use& wanted, const QKeySequence& key) const {
    for (const Use& other : m_uses) {
        if (other.id == wanted.id || !holdTogether(other.scope, wanted.scope)) continue;
        // Enter ends a scan and, on an empty line, confirms: both are meant.
        if (wanted.id == QStringLiteral("guide.confirm") && other.id == QStringLiteral("guide.end")) continue;
        const QList<QKeySequence> taken = other.kind == Kind::Fixed ? other.presets : QList<QKeySequence>{of(other.id)};
        if (!taken.contains(key)) continue;
        const QString why = tr("%1 is taken: “%2” (%3)").arg(text(key), other.does, scopeText(other.scope));
        return refused(why, other.kind == Kind::Fixed ? tr("choose another key") : tr("choose another key, or give that one another first"));
    }
    return std::nullopt;
}

std::optional<Finding> Keys::objection(const QString& id, const QKeySequence& key) const {
    const Use* u = use(id);
    if (!u) return refused(tr("There is no “%1”").arg(id), {});
    if (u->kind == Kind::Fixed) return refused(tr("This key is the same in all programs and stays"), {});
    if (key.isEmpty())
        return u->scope == Scope::Changeover ? refused(tr("The guide must be usable without a mouse"), tr("choose another key"))
                                             : std::nullopt;
    if (auto why = unfit(*u, key)) return why;
    return clash(*u, key);
}

std::optional<Finding> Keys::set(const QString& id, const QKeySequence& key) {
    if (auto why = objection(id, key)) return why;
    if (key == use(id)->presets.value(0)) {
        m_chosen.remove(id);
        remembered()->remove(settingOf(id));
    } else {
        m_chosen.insert(id, key);
        remembered()->setValue(settingOf(id), key.toString(QKeySequence::PortableText));
    }
    Q_EMIT changed();
    return std::nullopt;
}

std::optional<Finding> Keys::reset(const QString& id) {
    const Use* u = use(id);
    return u && isChanged(id) ? set(id, u->presets.value(0)) : std::nullopt;
}

void Keys::resetAll() {
    m_chosen.clear();
    remembered()->remove(QStringLiteral("keys"));
    Q_EMIT changed();
}

void Keys::reload() {
    m_chosen.clear();
    const auto settings = remembered();
    for (const Use& u : m_uses) {
        if (u.kind == Kind::Fixed || !settings->contains(settingOf(u.id))) continue;
        m_chosen.insert(u.id, QKeySequence(settings->value(settingOf(u.id)).toString(), QKeySequence::PortableText));
    }
    // All are there before each is judged: two that changed places stand against each other only half way.
    for (bool all = false; !all;) {
        all = true;
        for (const Use& u : m_uses)
            if (m_chosen.contains(u.id) && objection(u.id, m_chosen.value(u.id))) {
                m_chosen.remove(u.id);
                all = false;
                break;
            }
    }
    Q_EMIT changed();
}

QString Keys::text(const QKeySequence& key) {
    return key.toString(QKeySequence::NativeText).replace(QStringLiteral("Return"), tr("Enter"));
}

QString Keys::textOf(const QString& id) const {
    const Use* u = use(id);
    if (!u || u->kind != Kind::Fixed) return text(of(id));
    QStringList all;
    for (const QKeySequence& key : u->presets) all << text(key);
    return all.join(QStringLiteral(", "));
}

QString Keys::scopeText(Scope scope) {
    switch (scope) {
    case Scope::Window: return tr("everywhere");
    case Scope::Changeover: return tr("in a changeover");
    case Scope::Plan: return tr("in the plan");
    case Scope::List: return tr("in lists");
    case Scope::Text: return tr("in text");
    case Scope::Form: break;
    }
    return tr("in forms");
}

Keys& keys() {
    static Keys all;
    return all;
}

QString keyText(const QString& id) {
    return Keys::text(keys().of(id));
}

QString keyHint(const QString& id) {
    const QString key = keyText(id);
    return key.isEmpty() ? QString() : QStringLiteral(" (%1)").arg(key);
}

QShortcut* onKey(const QString& id, QWidget* owner, Qt::ShortcutContext context) {
    auto* shortcut = new QShortcut(keys().of(id), owner);
    shortcut->setObjectName(id);
    shortcut->setContext(context);
    QObject::connect(&keys(), &Keys::changed, shortcut, [shortcut, id] { shortcut->setKey(keys().of(id)); });
    return shortcut;
}

QKeySequence keyOf(const QKeyEvent& event) {
    int key = event.key();
    if (key == 0 || key == Qt::Key_unknown || key == Qt::Key_Control || key == Qt::Key_Shift || key == Qt::Key_Alt ||
        key == Qt::Key_AltGr || key == Qt::Key_Meta)
        return {};
    if (key == Qt::Key_Enter) key = Qt::Key_Return;
    Qt::KeyboardModifiers modifiers = event.modifiers() & ~Qt::KeypadModifier;
    if (key == Qt::Key_Backtab) key = Qt::Key_Tab, modifiers |= Qt::ShiftModifier;
    return QKeySequence(QKeyCombination(modifiers, static_cast<Qt::Key>(key)));
}

} // namespace interlude
