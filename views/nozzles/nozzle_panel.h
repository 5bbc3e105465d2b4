#pragma once
// One nozzle in full: its facts and every measurement of its orifice.

#include "views/lists/fact_panel.h"
#include "views/lists/list_model.h"

namespace interlude {

class NozzlePanel final : public lists::FactPanel {
    Q_OBJECT
public:
    explicit NozzlePanel(Bench& bench, QWidget* parent = nullptr);

private:
    struct Measured {
        int number;
        NozzleMeasurement entry;
    };
    NozzlePanel(Bench& bench, lists::ListModel<Measured>* measured, QWidget* parent);
    static lists::ListModel<Measured>* measuredModel(const QTimeZone& zone);
    bool fill(const QString& serial) override;

    Bench& m_bench;
    lists::ListModel<Measured>* m_measured;
};

} // namespace interlude
