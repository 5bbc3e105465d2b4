#pragma once
// One spool in full: its facts and every entry that changed its grams.

#include "views/bench/bench.h"
#include "views/lists/list_model.h"
#include "views/look/widgets.h"

class QFormLayout;

namespace interlude {

namespace lists {
class ListView;
}

class SpoolPanel final : public look::Panel {
    Q_OBJECT
public:
    explicit SpoolPanel(Bench& bench, QWidget* parent = nullptr);
    /// Empty or unknown = says to choose one.
    void showSpool(const SpoolId& id);

private:
    struct Entry {
        int number;
        StockEntry entry;
    };
    void addFact(const QString& name, const QString& value, const QString& tone = {});

    Bench& m_bench;
    QFormLayout* m_facts;
    lists::ListModel<Entry>* m_entries;
    lists::ListView* m_list;
};

} // namespace interlude
