#pragma once
// One spool in full: its facts and every entry that changed its grams.

#include "views/lists/fact_panel.h"
#include "views/lists/list_model.h"

namespace interlude {

class SpoolPanel final : public lists::FactPanel {
    Q_OBJECT
public:
    explicit SpoolPanel(Bench& bench, QWidget* parent = nullptr);

private:
    struct Entry {
        int number;
        StockEntry entry;
    };
    SpoolPanel(Bench& bench, lists::ListModel<Entry>* entries, QWidget* parent);
    static lists::ListModel<Entry>* entryModel(const QTimeZone& zone);
    bool fill(const QString& id) override;

    Bench& m_bench;
    lists::ListModel<Entry>* m_entries;
};

} // namespace interlude
