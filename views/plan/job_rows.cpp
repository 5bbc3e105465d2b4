// The rows of the jobs that are not placed: what they carry in a drag, and what they take.
#include "views/plan/jobs_tree.h"
#include "views/plan/plan_words.h"

#include "views/lists/csv.h"

#include <QClipboard>
#include <QDrag>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QMimeData>
#include <QPainter>

namespace interlude {

namespace {
constexpr int JobRole = Qt::UserRole + 1;
} // namespace

JobRows::JobRows(PlanDesk& desk, QWidget* parent) : QTreeWidget(parent), m_desk(desk) {
    setColumnCount(3);
    setHeaderLabels({tr("Job"), tr("Due"), tr("Print")});
    setSelectionMode(QAbstractItemView::ExtendedSelection);
    setUniformRowHeights(true);
    setIndentation(look::unit);
    setHeaderHidden(true);
    setDragEnabled(true);
    setAcceptDrops(true);
    setDropIndicatorShown(false);
    setDragDropMode(QAbstractItemView::DragDrop);
    setContextMenuPolicy(Qt::CustomContextMenu);
    setAccessibleName(tr("Jobs not yet placed"));
}

int JobRows::jobOf(const QTreeWidgetItem* item) {
    const QVariant job = item->data(0, JobRole);
    return job.isValid() ? job.toInt() : -1;
}

void JobRows::setJob(QTreeWidgetItem* item, int job) {
    item->setData(0, JobRole, job);
}

void JobRows::collect(const QTreeWidgetItem* item, std::vector<int>& out) const {
    if (item->isHidden()) return;
    const int job = jobOf(item);
    if (job >= 0 && std::find(out.begin(), out.end(), job) == out.end()) out.push_back(job);
    for (int i = 0; i < item->childCount(); ++i) collect(item->child(i), out);
}

std::vector<int> JobRows::jobsOf(const QList<QTreeWidgetItem*>& items) const {
    // In the order shown, whatever the order of choosing.
    QSet<const QTreeWidgetItem*> wanted(items.begin(), items.end());
    std::vector<int> out;
    for (QTreeWidgetItemIterator i(const_cast<JobRows*>(this)); *i; ++i)
        if (wanted.contains(*i)) collect(*i, out);
    return out;
}

QStringList JobRows::mimeTypes() const {
    return {plan_words::mimeType};
}

QMimeData* JobRows::mimeData(const QList<QTreeWidgetItem*>& items) const {
    const std::vector<int> jobs = jobsOf(items);
    auto* data = new QMimeData;
    data->setData(plan_words::mimeType, plan_words::jobsToMime(jobs));
    QStringList names;
    for (const int job : jobs) names.append(m_desk.problem().jobs[job].id);
    data->setText(names.join(QStringLiteral(", ")));
    return data;
}

void JobRows::startDrag(Qt::DropActions) {
    QMimeData* data = mimeData(selectedItems());
    const auto count = data->text().isEmpty() ? 0 : data->text().count(QLatin1Char(',')) + 1;
    if (count == 0) {
        delete data;
        return;
    }
    const QString text = count == 1 ? data->text() : tr("%1 jobs").arg(count);
    const QFontMetrics metrics(look::font(look::Text::Body, true));
    QPixmap picture(QSize(metrics.horizontalAdvance(text) + 2 * look::unit, metrics.height() + look::unit) *
                    devicePixelRatioF());
    picture.setDevicePixelRatio(devicePixelRatioF());
    picture.fill(look::colours().accent);
    QPainter painter(&picture);
    painter.setFont(look::font(look::Text::Body, true));
    painter.setPen(look::colours().onAccent);
    painter.drawText(look::unit, look::unit / 2 + metrics.ascent(), text);
    painter.end();
    // Not the view's own drag: that one removes rows after a move, and these follow the plan.
    auto* drag = new QDrag(this);
    drag->setMimeData(data);
    drag->setPixmap(picture);
    drag->setHotSpot(plan_words::aboveThePointer(picture.deviceIndependentSize()));
    drag->exec(Qt::CopyAction | Qt::MoveAction, Qt::MoveAction);
}

std::vector<int> JobRows::fromBoard(const QMimeData* data) const {
    std::vector<int> out;
    if (!data->hasFormat(plan_words::mimeType)) return out;
    const std::vector<int>& left = m_desk.draft().orders().leftOut;
    for (const int job : plan_words::jobsFromMime(data->data(plan_words::mimeType), m_desk.problem()))
        if (!std::binary_search(left.begin(), left.end(), job)) out.push_back(job);
    return out;
}

void JobRows::dragEnterEvent(QDragEnterEvent* event) {
    // Rows of this list may pass over it on their way to the board.
    if (event->mimeData()->hasFormat(plan_words::mimeType)) event->accept();
}

void JobRows::dragMoveEvent(QDragMoveEvent* event) {
    event->setAccepted(!fromBoard(event->mimeData()).empty());
}

void JobRows::dropEvent(QDropEvent* event) {
    const std::vector<int> jobs = fromBoard(event->mimeData());
    event->setAccepted(!jobs.empty());
    if (!jobs.empty()) Q_EMIT dropped(jobs);
}

void JobRows::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Copy)) copy();
    else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) Q_EMIT itemActivated(currentItem(), 0);
    else QTreeWidget::keyPressEvent(event);
}

void JobRows::copy() const {
    QList<QStringList> rows;
    for (const QTreeWidgetItem* item : selectedItems()) rows.append({item->text(0), item->text(1), item->text(2)});
    if (!rows.isEmpty()) QGuiApplication::clipboard()->setText(lists::tsvOf(rows));
}

void JobRows::keyboardSearch(const QString& text) {
    if (!text.trimmed().isEmpty()) Q_EMIT typed(text);
}

} // namespace interlude
