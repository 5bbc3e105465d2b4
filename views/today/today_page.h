#pragma once
// The Today tab: a card for each printer, the crew's list beside them. For two metres away: wall_view.h.

#include "views/bench/bench.h"

#include <QWidget>

class QGridLayout;
class QScrollArea;

namespace interlude {

class CrewList;
class PlanAhead;
class PrinterCard;

/// Columns for so many cards in so much room: as few rows as the width allows without cards narrower than the least.
int cardColumns(int cards, int width, int least);

class TodayPage final : public QWidget {
    Q_OBJECT
public:
    explicit TodayPage(Bench& bench, QWidget* parent = nullptr);
    ~TodayPage() override;
    PrinterCard* card(const QString& printer) const;

protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    void buildCards();
    void layOut();
    /// Nothing is reckoned behind another tab: what is shown again is made anew then.
    void refresh();
    Bench& m_bench;
    std::unique_ptr<PlanAhead> m_plan; ///< shared by cards and list, so that it is reckoned once
    QScrollArea* m_scroll;
    QGridLayout* m_grid;
    QList<PrinterCard*> m_cards;
    CrewList* m_crew;
    bool m_stale = false;
};

} // namespace interlude
