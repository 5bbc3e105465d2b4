#include "views/changeover/step_list.h"

#include "views/look/look.h"
#include "views/words/words.h"

#include <QPainter>
#include <QStyledItemDelegate>

namespace interlude {

namespace {

enum Part { ShapeRole = Qt::UserRole + 1, MinutesRole, IdRole, DoneRole, ShownRole };

/// Shape, title, minutes in three columns; headings in bold.
class StepRow final : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const override {
        return {10 * look::unit, index.data(IdRole).toString().isEmpty() ? 26 : 28};
    }

    void paint(QPainter* p, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const look::Colours& c = look::colours();
        const bool heading = index.data(IdRole).toString().isEmpty();
        const bool shown = index.data(ShownRole).toBool();
        QRect r = option.rect;
        p->save();
        if (shown) {
            p->fillRect(r, c.selected);
            p->fillRect(QRect(r.left(), r.top(), 3, r.height()), c.accent);
        }
        if (option.state & QStyle::State_HasFocus) {
            p->setPen(QPen(c.accent, 2));
            p->drawRect(r.adjusted(1, 1, -1, -1));
        }
        r.adjust(look::unit, 0, -look::unit, 0);
        p->setFont(look::font(look::Text::Body, heading || shown));
        p->setPen(heading || index.data(DoneRole).toBool() ? c.muted : c.text);
        const QString minutes = index.data(MinutesRole).toString();
        const int right = p->fontMetrics().horizontalAdvance(minutes) + look::unit;
        if (!heading) {
            p->drawText(QRect(r.left(), r.top(), 20, r.height()), Qt::AlignVCenter, index.data(ShapeRole).toString());
            p->drawText(r, Qt::AlignVCenter | Qt::AlignRight, minutes);
            r.adjust(22, 0, -right, 0);
        } else {
            r.adjust(0, 4, 0, 0);
        }
        p->drawText(r, Qt::AlignVCenter,
                    p->fontMetrics().elidedText(index.data().toString(), Qt::ElideRight, r.width()));
        p->restore();
    }
};

} // namespace

QString markShape(StepMark mark, bool handsOn) {
    switch (mark) {
    case StepMark::Done: return QStringLiteral("✓");
    case StepMark::Skipped: return QStringLiteral("–");
    case StepMark::Current: return QStringLiteral("▸");
    case StepMark::Running: return QStringLiteral("…");
    case StepMark::Ready: return handsOn ? QStringLiteral("○") : QStringLiteral("…");
    case StepMark::Waiting: break;
    }
    return {};
}

QString markWord(StepMark mark) {
    switch (mark) {
    case StepMark::Done: return StepList::tr("done");
    case StepMark::Skipped: return StepList::tr("skipped");
    case StepMark::Current: return StepList::tr("now");
    case StepMark::Running: return StepList::tr("running");
    case StepMark::Ready: return StepList::tr("may go now");
    case StepMark::Waiting: break;
    }
    return StepList::tr("to come");
}

StepList::StepList(QWidget* parent) : QListWidget(parent) {
    setObjectName(QStringLiteral("stepList"));
    setAccessibleName(tr("Steps of this changeover"));
    setItemDelegate(new StepRow(this));
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setFocusPolicy(Qt::TabFocus);
    const auto choose = [this](QListWidgetItem* item) {
        const QString id = item->data(IdRole).toString();
        if (!id.isEmpty()) Q_EMIT chosen(id);
    };
    connect(this, &QListWidget::itemClicked, this, choose);
    connect(this, &QListWidget::itemActivated, this, choose);
}

void StepList::rebuild(const Guide& guide) {
    clear();
    m_ids.clear();
    QString group;
    for (const GuideStep& g : guide.steps) {
        if (g.group != group) {
            group = g.group;
            auto* heading = new QListWidgetItem(group, this);
            heading->setFlags(Qt::ItemIsEnabled);
            m_ids.append(QString());
        }
        auto* row = new QListWidgetItem(g.title, this);
        row->setData(IdRole, g.id);
        m_ids.append(g.id);
    }
}

void StepList::show(const Guide& guide, const StepId& shown) {
    QStringList ids;
    for (const QString& id : m_ids)
        if (!id.isEmpty()) ids.append(id);
    QStringList wanted;
    for (const GuideStep& g : guide.steps) wanted.append(g.id);
    const bool fresh = ids != wanted;
    if (fresh) rebuild(guide);
    QListWidgetItem* visible = nullptr;
    for (const GuideStep& g : guide.steps) {
        QListWidgetItem* row = item(static_cast<int>(m_ids.indexOf(g.id)));
        const bool isShown = g.id == shown;
        if (isShown && !row->data(ShownRole).toBool()) visible = row;
        row->setData(ShapeRole, markShape(g.mark, g.handsOn));
        row->setData(MinutesRole, QString::number(g.planned.count()));
        row->setData(DoneRole, g.mark == StepMark::Done || g.mark == StepMark::Skipped);
        row->setData(ShownRole, isShown);
        row->setData(Qt::AccessibleTextRole,
                     QStringLiteral("%1, %2, %3").arg(g.title, markWord(g.mark), words::minutes(g.planned)));
        row->setToolTip(QStringLiteral("%1: %2").arg(g.title, markWord(g.mark)));
    }
    if (visible) scrollToItem(visible, QAbstractItemView::PositionAtCenter);
}

} // namespace interlude
