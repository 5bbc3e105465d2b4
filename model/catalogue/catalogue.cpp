#include "model/catalogue/catalogue.h"

namespace interlude {

namespace {
template <typename T, typename Id> const T* find(const QList<T>& all, Id T::*id, const QString& wanted) {
    for (const T& one : all)
        if (one.*id == wanted) return &one;
    return nullptr;
}
template <typename T> QString nameOr(const T* one, const QString& id) {
    return one && !one->name.isEmpty() ? one->name : id;
}
} // namespace

const Material* Catalogue::material(const MaterialId& id) const { return find(materials, &Material::id, id); }
const NozzleType* Catalogue::nozzleType(const NozzleTypeId& id) const { return find(nozzleTypes, &NozzleType::id, id); }
const Printer* Catalogue::printer(const PrinterId& id) const { return find(fleet.printers, &Printer::id, id); }
const PrinterType* Catalogue::printerType(const PrinterTypeId& id) const {
    return find(fleet.printerTypes, &PrinterType::id, id);
}
const PrinterType* Catalogue::typeOf(const PrinterId& id) const {
    const Printer* p = printer(id);
    return p ? printerType(p->type) : nullptr;
}
const Person* Catalogue::person(const QString& initials) const { return find(fleet.people, &Person::initials, initials); }
const Tool* Catalogue::tool(const QString& id) const { return find(fleet.tools, &Tool::id, id); }
const Consumable* Catalogue::consumable(const QString& id) const { return find(fleet.consumables, &Consumable::id, id); }
const Instrument* Catalogue::instrument(const QString& id) const { return find(fleet.instruments, &Instrument::id, id); }
const Place* Catalogue::place(const QString& id) const { return find(fleet.places, &Place::id, id); }
QString Catalogue::printerName(const PrinterId& id) const { return nameOr(printer(id), id); }
QString Catalogue::placeName(const QString& id) const { return nameOr(place(id), id); }
const StepTemplate* Catalogue::step(const StepId& id) const { return find(procedures.steps, &StepTemplate::id, id); }

} // namespace interlude
