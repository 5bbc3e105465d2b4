#include "views/today/today_page.h"

#include "views/today/crew_list.h"
#include "views/today/plan_ahead.h"
#include "views/today/printer_card.h"

#include <QGridLayout>
#include <QScrollArea>

namespace interlude {

namespace {
constexpr int crewWidth = 42 * look::unit;
constexpr int leastCard = 36 * look::unit;
} // namespace

int cardColumns(int cards, int width, int least) {
    const int gap = look::unit + 4;
    int columns = std::max(1, (width + gap) / (least + gap));
    columns = std::min(columns, std::max(1, cards));
    // As even as the rows allow: six cards in five columns stand better three by three.
    const int rows = (cards + columns - 1) / columns;
    return rows > 0 ? (cards + rows - 1) / rows : columns;
}

TodayPage::TodayPage(Bench& bench, QWidget* parent)
    : QWidget(parent), m_bench(bench), m_plan(std::make_unique<PlanAhead>(bench)) {
    setObjectName(QStringLiteral("todayPage"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * look::unit, 2 * look::unit, 2 * look::unit, 2 * look::unit);
    row->setSpacing(2 * look::unit);
    m_scroll = new QScrollArea;
    m_scroll->setWidgetResizable(true);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* inside = new QWidget;
    m_grid = new QGridLayout(inside);
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setSpacing(look::unit + 4);
    m_scroll->setWidget(inside);
    m_crew = new CrewList(bench, m_plan.get());
    m_crew->setFixedWidth(crewWidth);
    row->addWidget(m_scroll, 1);
    row->addWidget(m_crew);
    buildCards();
    connect(&bench, &Bench::changed, this, [this] {
        QStringList cards, printers;
        for (const PrinterCard* c : std::as_const(m_cards)) cards << c->printer();
        for (const PrinterNow& p : m_bench.shop().printers()) printers << p.id;
        if (cards != printers) buildCards();
        refresh();
    });
    connect(&bench, &Bench::signedIn, this, &TodayPage::refresh);
    connect(&bench, &Bench::ticked, this, &TodayPage::refresh);
}

TodayPage::~TodayPage() {
    // Cards and list hold the plan.
    for (QWidget* part : {static_cast<QWidget*>(m_scroll), static_cast<QWidget*>(m_crew)}) delete part;
}

void TodayPage::buildCards() {
    look::clear(m_grid);
    m_cards.clear();
    for (const PrinterNow& p : m_bench.shop().printers()) m_cards.append(new PrinterCard(m_bench, p.id, m_plan.get()));
    layOut();
}

PrinterCard* TodayPage::card(const QString& printer) const {
    for (PrinterCard* c : m_cards)
        if (c->printer() == printer) return c;
    return nullptr;
}

void TodayPage::layOut() {
    const int width = this->width() - 6 * look::unit - crewWidth;
    const int columns = cardColumns(static_cast<int>(m_cards.size()), width, leastCard);
    for (PrinterCard* c : m_cards) m_grid->removeWidget(c);
    for (int c = 0; c < m_grid->columnCount(); ++c) m_grid->setColumnStretch(c, c < columns ? 1 : 0);
    for (int i = 0; i < static_cast<int>(m_cards.size()); ++i) {
        m_grid->addWidget(m_cards.at(i), i / columns, i % columns);
        m_grid->setColumnStretch(i % columns, 1);
        m_grid->setRowStretch(i / columns, 1);
    }
}

void TodayPage::refresh() {
    m_stale = !isVisible();
    if (m_stale) return;
    for (PrinterCard* c : m_cards) c->refresh();
    m_crew->refresh();
}

void TodayPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_stale) refresh();
}

void TodayPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    layOut();
}

} // namespace interlude
