#include "model/changeover/work_layout.h"

#include <algorithm>

namespace interlude {

namespace {

class Simulation {
public:
    explicit Simulation(const QList<WorkStep>& steps) : m_steps(steps) {
        m_layout.start.fill(-1, steps.size());
        m_layout.end.fill(-1, steps.size());
    }

    std::optional<WorkLayout> run() {
        while (m_layout.order.size() < m_steps.size()) {
            while (beginWaits() || beginHandsOn()) {
            }
            int next = -1;
            for (int end : m_layout.end)
                if (end > m_now && (next < 0 || end < next))
                    next = end;
            if (m_layout.order.size() == m_steps.size())
                break;
            if (next < 0)
                return {};
            m_now = next;
        }
        for (int end : m_layout.end)
            m_layout.length = std::max(m_layout.length, end);
        return m_layout;
    }

private:
    bool ready(int i) const {
        return m_layout.start[i] < 0 && std::all_of(m_steps[i].after.begin(), m_steps[i].after.end(), [&](int before) {
                   return m_layout.start[before] >= 0 && m_layout.end[before] <= m_now;
               });
    }
    void begin(int i) {
        m_layout.start[i] = m_now;
        m_layout.end[i] = m_now + m_steps[i].minutes;
        m_layout.order.append(i);
        if (m_steps[i].handsOn)
            m_handsFree = m_layout.end[i];
    }
    bool beginWaits() {
        bool any = false;
        for (int i = 0; i < m_steps.size(); ++i)
            if (!m_steps[i].handsOn && ready(i))
                begin(i), any = true;
        return any;
    }
    bool beginHandsOn() {
        if (m_handsFree > m_now)
            return false;
        for (int i = 0; i < m_steps.size(); ++i)
            if (m_steps[i].handsOn && ready(i))
                return begin(i), true;
        return false;
    }

    const QList<WorkStep>& m_steps;
    WorkLayout m_layout;
    int m_now = 0, m_handsFree = 0;
};

} // namespace

std::optional<WorkLayout> layOut(const QList<WorkStep>& steps) {
    return Simulation(steps).run();
}

QList<int> criticalChain(const QList<WorkStep>& steps, const WorkLayout& layout) {
    int at = -1;
    for (int i : layout.order)
        if (at < 0 || layout.end[i] >= layout.end[at])
            at = i;
    QList<int> chain;
    while (at >= 0) {
        chain.prepend(at);
        int handsBefore = -1;
        for (int i : layout.order) {
            if (i == at)
                break;
            if (steps[i].handsOn)
                handsBefore = i;
        }
        QList<int> before = steps[at].after;
        if (steps[at].handsOn && handsBefore >= 0)
            before.append(handsBefore);
        const int from = at;
        at = -1;
        for (int i : before)
            if (layout.end[i] == layout.start[from] && (at < 0 || steps[i].minutes > steps[at].minutes))
                at = i;
    }
    return chain;
}

} // namespace interlude
