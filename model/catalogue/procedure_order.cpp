#include "model/catalogue/procedure_order.h"

namespace interlude {

namespace {

QHash<StepId, int> indexOf(const QList<StepTemplate>& steps) {
    QHash<StepId, int> out;
    for (int i = 0; i < steps.size(); ++i)
        if (!out.contains(steps[i].id)) out.insert(steps[i].id, i);
    return out;
}

/// Depth first without recursion: a library of a hundred thousand chained steps must not exhaust the stack.
class CycleSearch {
public:
    explicit CycleSearch(const QList<StepTemplate>& steps)
        : m_steps(steps), m_index(indexOf(steps)), m_state(static_cast<std::size_t>(steps.size()), State::New) {}

    QList<QStringList> run() {
        for (int i = 0; i < m_steps.size(); ++i)
            if (m_state[static_cast<std::size_t>(i)] == State::New) visit(i);
        return m_found;
    }

private:
    enum class State { New, Open, Done };
    struct Frame {
        int step;
        qsizetype next;
    };
    State& state(int i) { return m_state[static_cast<std::size_t>(i)]; }

    void visit(int start) {
        std::vector<Frame> path{{start, 0}};
        state(start) = State::Open;
        while (!path.empty()) {
            Frame& top = path.back();
            const QStringList& after = m_steps[top.step].after;
            if (top.next >= after.size()) {
                state(top.step) = State::Done;
                path.pop_back();
                continue;
            }
            const auto to = m_index.constFind(after[top.next++]);
            if (to == m_index.constEnd()) continue;
            if (state(*to) == State::Open) report(path, *to);
            if (state(*to) != State::New) continue;
            state(*to) = State::Open;
            path.push_back({*to, 0});
        }
    }
    void report(const std::vector<Frame>& path, int closing) {
        QStringList ids;
        auto at = std::find_if(path.begin(), path.end(), [&](const Frame& f) { return f.step == closing; });
        for (; at != path.end(); ++at) ids.append(m_steps[at->step].id);
        ids.append(m_steps[closing].id);
        m_found.append(ids);
    }

    const QList<StepTemplate>& m_steps;
    QHash<StepId, int> m_index;
    std::vector<State> m_state;
    QList<QStringList> m_found;
};

} // namespace

QList<QStringList> ProcedureOrder::cycles(const QList<StepTemplate>& steps) {
    return CycleSearch(steps).run();
}

ProcedureOrder::ProcedureOrder(const QList<StepTemplate>& steps) : m_steps(steps), m_index(indexOf(steps)) {
    m_ancestors.resize(static_cast<std::size_t>(steps.size()));
    for (int i = 0; i < steps.size(); ++i) {
        QSet<int>& all = m_ancestors[static_cast<std::size_t>(i)];
        QList<int> open{i};
        while (!open.isEmpty()) {
            for (const StepId& id : steps[open.takeLast()].after) {
                const auto to = m_index.constFind(id);
                if (to == m_index.constEnd() || all.contains(*to)) continue;
                all.insert(*to);
                open.append(*to);
            }
        }
    }
}

bool ProcedureOrder::certainlyBefore(int a, int b) const {
    if (a == b) return false;
    if (m_ancestors[static_cast<std::size_t>(b)].contains(a)) return true;
    const StepTemplate& first = m_steps[a];
    const StepTemplate& then = m_steps[b];
    if (first.external && !then.external) return true;
    if (!first.handsOn() || !then.handsOn() || first.external != then.external || a > b) return false;
    const qint64 key = qint64(a) * m_steps.size() + b;
    if (const auto known = m_known.constFind(key); known != m_known.constEnd()) return *known;
    const bool certain = std::all_of(first.after.begin(), first.after.end(), [&](const StepId& id) {
        const auto p = m_index.constFind(id);
        return p == m_index.constEnd() || certainlyBefore(*p, b);
    });
    m_known.insert(key, certain);
    return certain;
}

} // namespace interlude
