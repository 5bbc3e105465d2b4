#include "model/catalogue/procedure_order.h"
#include "model/catalogue/readers.h"

namespace interlude {

namespace {

/// Steps beyond this are not examined for their order; the reading says so.
constexpr int maxSteps = 2000;

/// The effects `first` and `then` of one printer: both selected, `then` cannot hold before `first` is done.
struct MustPrecede {
    Effect first, then;
    const char* because;
};

constexpr MustPrecede rules[] = {
    {Effect::RemoveNozzlePart, Effect::MountNozzlePart, "a nozzle is mounted only where none is"},
    {Effect::RemoveNozzleSupport, Effect::MountNozzleSupport, "a nozzle is mounted only where none is"},
    {Effect::UnloadPart, Effect::LoadPart, "feedstock is loaded only where none is"},
    {Effect::UnloadSupport, Effect::LoadSupport, "feedstock is loaded only where none is"},
    {Effect::MountNozzlePart, Effect::LoadPart, "feedstock is loaded into the nozzle that will print"},
    {Effect::MountNozzleSupport, Effect::LoadSupport, "feedstock is loaded into the nozzle that will print"},
    {Effect::LoadPart, Effect::PurgePart, "a purge needs the new feedstock"},
    {Effect::LoadSupport, Effect::PurgeSupport, "a purge needs the new feedstock"},
    {Effect::LoadPart, Effect::Align, "nozzles are aligned after loading"},
    {Effect::LoadSupport, Effect::Align, "nozzles are aligned after loading"},
    {Effect::MountNozzlePart, Effect::Align, "nozzles are aligned after mounting"},
    {Effect::MountNozzleSupport, Effect::Align, "nozzles are aligned after mounting"},
    {Effect::RemovePart, Effect::FitCover, "a cover is fitted when the part is out"},
    {Effect::RemovePart, Effect::CleanOut, "the chamber is cleaned out when the part is out"},
};

/// What is mounted or loaded must be able to leave again, else the next changeover cannot hold.
struct Pair {
    Effect in, out;
};
constexpr Pair pairs[] = {{Effect::MountNozzlePart, Effect::RemoveNozzlePart},
                          {Effect::MountNozzleSupport, Effect::RemoveNozzleSupport},
                          {Effect::LoadPart, Effect::UnloadPart},
                          {Effect::LoadSupport, Effect::UnloadSupport}};

class TypeCheck {
public:
    TypeCheck(Reading& r, const Catalogue& c, const ProcedureOrder& order, const PrinterType& type)
        : m_r(r), m_steps(c.procedures.steps), m_order(order), m_type(type) {
        for (int i = 0; i < m_steps.size(); ++i)
            if (m_steps[i].printerTypes.isEmpty() || m_steps[i].printerTypes.contains(type.id)) m_mine.append(i);
    }

    void run() {
        if (m_mine.isEmpty()) return;
        for (const MustPrecede& rule : rules) precede(rule);
        for (const Pair& pair : pairs) reversible(pair);
        start();
    }

private:
    QList<int> with(Effect e) const {
        QList<int> out;
        for (const int i : m_mine)
            if (m_steps[i].effect == e && !m_steps[i].external) out.append(i);
        return out;
    }
    Where at(int step, const char* key) const { return m_r.where(Kind::Step, m_steps[step].id, QString::fromLatin1(key)); }

    void precede(const MustPrecede& rule) {
        for (const int then : with(rule.then))
            for (const int first : with(rule.first)) {
                if (m_order.certainlyBefore(first, then)) continue;
                m_r.complain(at(then, "effect"),
                             QStringLiteral("`%1` (%2) may come before `%3` (%4)")
                                 .arg(m_steps[then].id, word(rule.then), m_steps[first].id, word(rule.first)),
                             QStringLiteral("%1; add `%2` to its `after`").arg(QString::fromLatin1(rule.because), m_steps[first].id));
            }
    }
    void reversible(const Pair& pair) {
        const QList<int> in = with(pair.in);
        if (in.isEmpty() || !with(pair.out).isEmpty()) return;
        m_r.complain(at(in.front(), "effect"),
                     QStringLiteral("`%1` has the effect `%2`, but no step for printers of type `%3` has `%4`")
                         .arg(m_steps[in.front()].id, word(pair.in), m_type.id, word(pair.out)),
                     QStringLiteral("add such a step"));
    }
    void start() {
        const QList<int> starts = with(Effect::StartPrint);
        if (starts.isEmpty()) {
            m_r.complain(m_r.where(Kind::Step, m_steps[m_mine.back()].id, QStringLiteral("id")),
                         QStringLiteral("no step for printers of type `%1` has the effect `start-print`").arg(m_type.id),
                         QStringLiteral("the last step starts the print; add it"));
            return;
        }
        for (qsizetype i = 1; i < starts.size(); ++i)
            m_r.complain(at(starts[i], "effect"),
                         QStringLiteral("a second step for printers of type `%1` starts the print, after `%2`")
                             .arg(m_type.id, m_steps[starts.front()].id),
                         QStringLiteral("keep one, or limit each by `printer-types`"));
        if (starts.size() > 1) return;
        for (const int i : m_mine) {
            if (starts.contains(i) || m_order.certainlyBefore(i, starts.front())) continue;
            m_r.complain(at(i, "id"),
                         QStringLiteral("`%1` is not certain to be done before `%2` starts the print").arg(m_steps[i].id, m_steps[starts.front()].id),
                         QStringLiteral("add it to the `after` of that step, or of one before it"));
        }
    }

    Reading& m_r;
    const QList<StepTemplate>& m_steps;
    const ProcedureOrder& m_order;
    const PrinterType& m_type;
    QList<int> m_mine;
};

void checkExternal(Reading& r, const QList<StepTemplate>& steps) {
    QHash<QString, const StepTemplate*> byId;
    for (const StepTemplate& s : steps) byId.insert(s.id, &s);
    for (const StepTemplate& s : steps) {
        const YamlNode* entry = r.entry(Kind::Step, s.id);
        const YamlNode* after = entry ? entry->find(QStringLiteral("after")) : nullptr;
        if (!s.external || !after) continue;
        for (const YamlNode& item : after->items)
            if (const StepTemplate* other = byId.value(item.text.trimmed()); other && !other->external)
                r.complain(item.where, QStringLiteral("the external step `%1` comes after `%2`, which is not external").arg(s.id, other->id),
                           QStringLiteral("external steps are done before the printer stops; remove one of the two"));
    }
}

} // namespace

void checkProcedures(Reading& r, const Catalogue& c) {
    const QList<StepTemplate>& steps = c.procedures.steps;
    const auto cycles = ProcedureOrder::cycles(steps);
    for (const QStringList& cycle : cycles)
        r.complain(r.where(Kind::Step, cycle.front(), QStringLiteral("after")),
                   QStringLiteral("these steps wait for each other: %1").arg(cycle.join(QStringLiteral(" after "))),
                   QStringLiteral("remove one of them from an `after`"));
    checkExternal(r, steps);
    // Where the order itself is in doubt, what is said about it would be guesswork.
    if (!cycles.isEmpty() || steps.isEmpty() || r.dangles(Kind::Step) || r.dangles(Kind::PrinterType) || r.orderDoubtful()) return;
    if (steps.size() > maxSteps) {
        r.complain({QStringLiteral("procedures.yaml"), 0, 0}, QStringLiteral("%1 steps").arg(steps.size()),
                   QStringLiteral("a library has at most %1").arg(maxSteps));
        return;
    }
    const ProcedureOrder order(steps);
    for (const PrinterType& type : c.fleet.printerTypes) TypeCheck(r, c, order, type).run();
}

} // namespace interlude
