#pragma once
// One nozzle in full: its facts and every measurement of its orifice.

#include "views/bench/bench.h"
#include "views/lists/list_model.h"
#include "views/look/widgets.h"

class QFormLayout;

namespace interlude {

namespace lists {
class ListView;
}

class NozzlePanel final : public look::Panel {
    Q_OBJECT
public:
    explicit NozzlePanel(Bench& bench, QWidget* parent = nullptr);
    /// Empty or unknown = says to choose one.
    void showNozzle(const NozzleSerial& serial);

private:
    struct Measured {
        int number;
        NozzleMeasurement entry;
    };
    void addFact(const QString& name, const QString& value, const QString& tone = {});

    Bench& m_bench;
    QFormLayout* m_facts;
    lists::ListModel<Measured>* m_measured;
    lists::ListView* m_list;
};

} // namespace interlude
