#include "views/plan/figures_panel.h"

#include "views/plan/plan_words.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QPainter>
#include <QStyledItemDelegate>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace interlude {

namespace {
/// The columns are too narrow for the margins that lists have.
class FigureDelegate final : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        QStyleOptionViewItem o = option;
        initStyleOption(&o, index);
        const QString text = std::exchange(o.text, QString());
        o.widget->style()->drawControl(QStyle::CE_ItemViewItem, &o, painter, o.widget);
        painter->setFont(o.font);
        painter->setPen(look::colours().text);
        painter->drawText(o.rect.adjusted(1, 0, -2, 0), Qt::AlignRight | Qt::AlignVCenter, QFontMetrics(o.font).elidedText(text, Qt::ElideRight, o.rect.width() - 3));
    }
};

constexpr int rowHeight = 24, headHeight = 36;
constexpr planning::Goal goals[] = {planning::Goal::Cost, planning::Goal::Changeover, planning::Goal::Tardiness,
                                    planning::Goal::Makespan};
} // namespace

QStringList figureNames(const Bench& bench) {
    return {FiguresPanel::tr("cost, %1").arg(bench.catalogue().fleet.currency),
            FiguresPanel::tr("turnaround h"),
            FiguresPanel::tr("changeover h"),
            FiguresPanel::tr("clean-outs"),
            FiguresPanel::tr("late jobs"),
            FiguresPanel::tr("not placed"),
            FiguresPanel::tr("all done in h")};
}

QStringList figuresOf(const planning::Totals& t) {
    return {plan_words::money(t.cost),     plan_words::hours(t.turnaround), plan_words::hours(t.changeover),
            QString::number(t.cleanOuts),  QString::number(t.lateJobs),     QString::number(t.notPlaced),
            plan_words::hours(t.makespan)};
}

FiguresPanel::FiguresPanel(PlanDesk& desk, QWidget* parent)
    : Panel({}, parent), m_desk(desk), m_goal(new QComboBox), m_table(new QTableWidget),
      m_bound(look::mutedLabel(look::Text::Body)) {
    setObjectName(QStringLiteral("figuresPanel"));
    m_goal->setObjectName(QStringLiteral("planGoal"));
    m_goal->setAccessibleName(tr("Goal of Improve"));
    m_goal->setToolTip(tr("What Improve works towards, and what the bound is of"));
    for (const planning::Goal g : goals) m_goal->addItem(plan_words::goal(g), static_cast<int>(g));
    connect(m_goal, &QComboBox::activated, this,
            [this](int at) { m_desk.setGoal(static_cast<planning::Goal>(m_goal->itemData(at).toInt())); });
    auto* caption = look::label(look::Text::Body, tr("This draft against…"), true);
    caption->setWordWrap(false);
    auto* head = new QHBoxLayout;
    head->addWidget(caption);
    head->addStretch(1);
    head->addWidget(m_goal);
    buildTable();
    body()->addLayout(head);
    body()->addWidget(m_table);
    body()->addWidget(m_bound);
    layout()->setContentsMargins(2 * look::unit, look::unit, 2 * look::unit, look::unit);
    connect(&desk, &PlanDesk::changed, this, &FiguresPanel::refresh);
    refresh();
}

void FiguresPanel::buildTable() {
    const QStringList rows = figureNames(m_desk.bench());
    m_table->setObjectName(QStringLiteral("planFigures"));
    m_table->setAccessibleName(tr("Figures of the draft, the published plan and the yardsticks"));
    m_table->setRowCount(static_cast<int>(rows.size()));
    m_table->setColumnCount(4);
    m_table->setVerticalHeaderLabels(rows);
    const QStringList heads{tr("draft"), tr("publ."), tr("first\nin"), tr("same\nsetup")};
    const QStringList tips{tr("The draft, timed from now on"),
                           tr("The plan that the shop follows, what is left of it timed anew from now on:\nits figures change as time goes on, also when nothing is published"),
                           tr("Yardstick: jobs by release, each where it is done earliest"),
                           tr("Yardstick: each free printer takes the job with the least changeover")};
    m_table->setHorizontalHeaderLabels(heads);
    for (int c = 0; c < 4; ++c) {
        m_table->horizontalHeaderItem(c)->setToolTip(tips[c]);
        m_table->horizontalHeaderItem(c)->setTextAlignment(Qt::AlignRight | Qt::AlignBottom);
        m_table->horizontalHeaderItem(c)->setFont(look::font(look::Text::Small));
        for (int r = 0; r < rows.size(); ++r) {
            auto* item = new QTableWidgetItem;
            if (c == 0) item->setFont(look::font(look::Text::Body, true));
            m_table->setItem(r, c, item);
        }
    }
    m_table->setProperty("figures", true);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setTabKeyNavigation(false);
    m_table->setShowGrid(false);
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    m_table->horizontalHeader()->setMinimumSectionSize(4 * look::unit);
    m_table->horizontalHeader()->setAccessibleName(tr("Plans compared"));
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    m_table->verticalHeader()->setDefaultSectionSize(rowHeight);
    m_table->verticalHeader()->setMinimumSectionSize(rowHeight);
    m_table->verticalHeader()->setFont(look::font(look::Text::Small));
    m_table->setItemDelegate(new FigureDelegate(m_table));
    m_table->verticalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_table->verticalHeader()->setFixedWidth(13 * look::unit);
    m_table->horizontalHeader()->setFont(look::font(look::Text::Small));
    m_table->verticalHeader()->setAccessibleName(tr("Figures"));
    m_table->setCornerButtonEnabled(false);
    m_table->setFixedHeight(static_cast<int>(rows.size()) * rowHeight + headHeight + 4);
    m_table->horizontalHeader()->setFixedHeight(headHeight);
}

QString FiguresPanel::figure(int row, int column) const {
    const QTableWidgetItem* item = m_table->item(row, column);
    return item ? item->text() : QString();
}

QString FiguresPanel::boundText() const {
    return m_bound->text();
}

void FiguresPanel::refresh() {
    const std::optional<planning::Totals> plans[] = {m_desk.figures(), m_desk.publishedFigures(), m_desk.firstInFirstOut(),
                                                     m_desk.sameSetupFirst()};
    for (int c = 0; c < 4; ++c) {
        const QStringList figures = plans[c] ? figuresOf(*plans[c]) : QStringList();
        for (int r = 0; r < m_table->rowCount(); ++r) {
            // The yardsticks are being reckoned; a plan that is not there has no figures.
            const QString none = c < 2 ? QStringLiteral("—") : QStringLiteral("…");
            m_table->item(r, c)->setText(figures.value(r, none));
            m_table->item(r, c)->setToolTip(figures.value(r));
        }
    }
    const planning::Goal goal = m_desk.draft().goal();
    if (const int at = m_goal->findData(static_cast<int>(goal)); at != m_goal->currentIndex()) m_goal->setCurrentIndex(at);
    const auto& printers = m_desk.draft().orders().printers;
    if (std::all_of(printers.begin(), printers.end(), [](const auto& list) { return list.empty(); })) {
        m_bound->setText(tr("Nothing is planned yet; goal and bound are said of what is."));
        return;
    }
    const std::int64_t value = m_desk.timetable().value(goal);
    QString text = tr("This draft: %1").arg(plan_words::value(m_desk.bench(), goal, value));
    if (const auto bound = m_desk.bound()) {
        text += tr(" · at least %1").arg(plan_words::value(m_desk.bench(), goal, *bound));
        if (const auto gap = planning::gapOf(value, bound)) text += tr(" · gap %1 %").arg(*gap * 100.0, 0, 'f', 1);
    } else {
        text += tr(" · no bound is known");
    }
    m_bound->setText(text);
}

} // namespace interlude
