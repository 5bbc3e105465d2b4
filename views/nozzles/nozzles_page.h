#pragma once
// Nozzles by serial: melt family, where, use so far, life left, measurements; and the acts on them.

#include "views/lists/list_model.h"
#include "views/lists/list_page.h"

namespace interlude {

struct NozzleRow;

class NozzlesPage final : public lists::ListPage {
    Q_OBJECT
public:
    explicit NozzlesPage(Bench& bench, QWidget* parent = nullptr);

private:
    NozzlesPage(Bench& bench, lists::ListModel<NozzleRow>* model, QWidget* parent);
    void fill(bool withRetired) override;

    lists::ListModel<NozzleRow>* m_model;
};

} // namespace interlude
