#pragma once
// One row of a list in full: its facts, and below them the list of what happened to it.

#include "views/bench/bench.h"
#include "views/look/widgets.h"

class QFormLayout;

namespace interlude::lists {

class ListView;

class FactPanel : public look::Panel {
    Q_OBJECT
public:
    /// Empty or unknown = says to choose one.
    void showFacts(const QString& key);

    /// The list of what happened to it.
    ListView* history() const { return m_history; }

protected:
    /// `none` is the title while nothing is chosen ("No spool chosen"), `choose` what to do then; `history` is adopted.
    FactPanel(const QString& none, const QString& choose, ListView* history, QWidget* parent);

    /// Puts title, facts and history of this key; false when there is no such thing.
    virtual bool fill(const QString& key) = 0;
    /// An empty value is left out. `tone` as in look::setTone.
    void addFact(const QString& name, const QString& value, const QString& tone = {});

private:
    QString m_none, m_choose;
    QFormLayout* m_facts;
    ListView* m_history;
};

} // namespace interlude::lists
