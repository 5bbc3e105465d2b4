#pragma once
// What a person can get at in a window of some size: whatever can be pressed or filled in is seen whole, or can be scrolled
// to; no button's text is cut; nothing lies over its neighbour.

#include <QtWidgets>

namespace interlude::tests {

/// Class names upwards, to find what a complaint is about.
inline QString placeOf(const QWidget* w) {
    QStringList names;
    for (const QWidget* at = w; at && names.size() < 4; at = at->parentWidget())
        names.append(QString::fromLatin1(at->metaObject()->className()) +
                     (at->objectName().isEmpty() ? QString() : QLatin1Char('#') + at->objectName()));
    return names.join(QStringLiteral(" in "));
}

/// Empty when all of `w` is seen in `window`, or can be scrolled to; else what cuts it.
inline QString cutBy(const QWidget* w, const QWidget* window) {
    QRect r = w->rect();
    for (const QWidget* at = w; at != window; at = at->parentWidget()) {
        const QWidget* parent = at->parentWidget();
        r.translate(at->pos());
        if (auto* area = qobject_cast<QScrollArea*>(parent->parentWidget()); area && area->widget() == at) {
            const QSize room = parent->size();
            const bool across = area->horizontalScrollBarPolicy() != Qt::ScrollBarAlwaysOff;
            if (r.width() > room.width() || (!across && (r.left() < 0 || r.right() >= room.width())))
                return placeOf(area) + QStringLiteral(" (across)");
            // A panel of words may be read in two pieces.
            if (r.height() > room.height() && !qobject_cast<const QFrame*>(w)) return placeOf(area) + QStringLiteral(" (down)");
            r.setHeight(std::min(r.height(), room.height()));
            r.moveTopLeft({std::clamp(r.left(), 0, room.width() - r.width()), std::clamp(r.top(), 0, room.height() - r.height())});
        }
        if (!parent->rect().contains(r)) return placeOf(parent);
    }
    return {};
}

/// True when the text of the button stands whole in it.
inline bool saysAll(const QAbstractButton* b) {
    QStyleOptionButton option;
    option.initFrom(b);
    const bool tick = qobject_cast<const QCheckBox*>(b) || qobject_cast<const QRadioButton*>(b);
    const auto part = qobject_cast<const QRadioButton*>(b) ? QStyle::SE_RadioButtonContents
                      : tick                               ? QStyle::SE_CheckBoxContents
                                                           : QStyle::SE_PushButtonContents;
    const QRect room = b->style()->subElementRect(part, &option, b);
    const QSize text = b->fontMetrics().size(Qt::TextShowMnemonic, b->text());
    return text.width() <= room.width() && text.height() <= b->height();
}

/// One line for each thing that a person cannot get at or read.
inline QStringList outOfReach(const QWidget* window) {
    QStringList faults;
    const auto say = [&](const QWidget* w, const QString& what) {
        faults.append(QStringLiteral("%1 “%2”: %3").arg(placeOf(w), w->accessibleName(), what));
    };
    for (const QWidget* w : window->findChildren<QWidget*>()) {
        if (!w->isVisible() || w->window() != window) continue;
        if (const auto* b = qobject_cast<const QAbstractButton*>(w); b && !b->text().isEmpty()) {
            if (!saysAll(b)) say(w, QStringLiteral("text cut: “%1” in %2 px").arg(b->text()).arg(b->width()));
        }
        if (const auto* l = qobject_cast<const QLabel*>(w); l && !l->text().isEmpty()) {
            const bool wraps = l->wordWrap();
            if (wraps && l->height() < l->heightForWidth(l->width())) say(w, QStringLiteral("text cut below: “%1”").arg(l->text()));
            if (!wraps && l->sizePolicy().horizontalPolicy() != QSizePolicy::Ignored && l->width() < l->minimumSizeHint().width())
                say(w, QStringLiteral("text cut: “%1”").arg(l->text()));
        }
        if (w->focusPolicy() != Qt::NoFocus && !w->focusProxy() && !qobject_cast<const QAbstractScrollArea*>(w)) {
            if (const QString by = cutBy(w, window); !by.isEmpty()) say(w, QStringLiteral("cut by ") + by);
        }
        if (!w->parentWidget()->layout() || w->parentWidget()->layout()->indexOf(const_cast<QWidget*>(w)) < 0) continue;
        for (const QObject* o : w->parentWidget()->children()) {
            const auto* other = qobject_cast<const QWidget*>(o);
            if (!other || other <= w || !other->isVisible() || other->isWindow() || !w->geometry().intersects(other->geometry())) continue;
            if (!qobject_cast<const QStackedLayout*>(w->parentWidget()->layout()))
                say(w, QStringLiteral("lies over ") + placeOf(other));
        }
    }
    return faults;
}

} // namespace interlude::tests
