#pragma once
// Spools: what is in hand, how dry, how much; and the acts on them.

#include "views/lists/list_model.h"
#include "views/lists/list_page.h"

namespace interlude {

struct SpoolRow;

class StockPage final : public lists::ListPage {
    Q_OBJECT
public:
    explicit StockPage(Bench& bench, QWidget* parent = nullptr);

private:
    StockPage(Bench& bench, lists::ListModel<SpoolRow>* model, QWidget* parent);
    void fill(bool withRetired) override;

    lists::ListModel<SpoolRow>* m_model;
};

} // namespace interlude
