#include "views/lists/fact_panel.h"

#include "views/lists/list_view.h"

#include <QFormLayout>
#include <QVBoxLayout>

namespace interlude::lists {

FactPanel::FactPanel(const QString& none, const QString& choose, ListView* history, QWidget* parent)
    : Panel({}, parent), m_none(none), m_choose(choose), m_facts(new QFormLayout), m_history(history) {
    m_facts->setHorizontalSpacing(2 * look::unit);
    m_facts->setVerticalSpacing(look::unit / 2);
    body()->addLayout(m_facts);
    body()->addWidget(m_history, 1);
    body()->addStretch(0);
}

void FactPanel::addFact(const QString& name, const QString& value, const QString& tone) {
    if (value.isEmpty()) return;
    auto* said = look::label(look::Text::Body, value);
    look::setTone(said, tone);
    auto* caption = look::mutedLabel(look::Text::Body, name);
    caption->setWordWrap(false);
    m_facts->addRow(caption, said);
}

void FactPanel::showFacts(const QString& key) {
    while (m_facts->rowCount() > 0) m_facts->removeRow(0);
    const bool found = !key.isEmpty() && fill(key);
    m_history->setVisible(found);
    if (found) return;
    setTitle(m_none);
    m_facts->addRow(look::mutedLabel(look::Text::Body, m_choose));
}

} // namespace interlude::lists
