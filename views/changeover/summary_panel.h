#pragma once
// What a changeover would be, before it begins: from, to, facts, verdicts with reasons, minutes, nozzles and spools that
// can be chosen, purges, clean-out, pick list to tick off, steps.

#include "views/bench/bench.h"
#include "views/changeover/draft.h"
#include "views/look/widgets.h"

#include <QScrollArea>

class QGridLayout;
class QVBoxLayout;

namespace interlude {

class SummaryPanel final : public QScrollArea {
    Q_OBJECT
public:
    explicit SummaryPanel(Bench& bench, QWidget* parent = nullptr);
    /// Draws anew; an empty result shows `hint` instead.
    void show(const Draft& draft, const std::optional<DraftResult>& result, const QString& hint);
    /// Time has gone by and nothing else has changed.
    void sayReady(Instant ready);

Q_SIGNALS:
    /// A choice was made here.
    void changed(const interlude::Draft& draft);
    /// A refusal is to be lifted.
    void liftAsked(const interlude::Finding& finding);

protected:
    bool viewportEvent(QEvent* event) override;

private:
    void addHead(const DraftResult& r);
    void addVerdicts(const DraftResult& r);
    void addFigures(const DraftResult& r);
    void addChoices(const DraftResult& r);
    void addCleanOut(QGridLayout* grid, const Transition& t);
    void addPickList(const Changeover& c);
    void addSteps(const Changeover& c);
    void addChoice(QGridLayout* grid, const QString& name, const QString& caption, const QString& note,
                   const QList<Candidate>& candidates, QString Draft::* field);
    void addRow(QGridLayout* grid, const QString& caption, const QString& text);
    QWidget* added(const QString& name) const;
    Bench& m_bench;
    Draft m_draft;
    QLabel* m_ready = nullptr;
    QVBoxLayout* m_column;
    QSet<QString> m_ticked; ///< pick items fetched, by kind and id
};

/// "Part melt zone: ABS → PC, purge 6.5 cm³ (4.36 times its volume, dead space included; at most 1 % old material)".
QString purgeText(const Catalogue& catalogue, const PurgePlan& p);

} // namespace interlude
