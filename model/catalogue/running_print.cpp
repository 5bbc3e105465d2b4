// A print that runs when the folder is first opened: `print` of an entry of setups.yaml.

#include "model/catalogue/did_you_mean.h"
#include "model/catalogue/readers.h"

#include <algorithm>

namespace interlude {

std::optional<OpeningPrint> readRunningPrint(Reading& r, const YamlNode& node, const PrinterId& printer) {
    Fields f(r, node, QStringLiteral("a running print"));
    OpeningPrint p;
    p.printer = printer;
    f.refersTo(Kind::Job, QStringLiteral("job"), p.job, Need::Required);
    f.text(QStringLiteral("variant"), p.variant, Need::Optional, 64);
    std::optional<Instant> started;
    f.take(QStringLiteral("started"), Need::Required);
    f.localTime(QStringLiteral("started"), started);
    const bool timed = f.minutes(QStringLiteral("minutes"), p.expected, range::someMinutes());
    if (p.job.isEmpty() || !started || (f.has(QStringLiteral("minutes")) && !timed)) return {};
    p.started = *started;
    return p;
}

namespace {

/// One running print against the job that it makes and the setup that it runs with.
class RunningPrintCheck {
public:
    RunningPrintCheck(Reading& r, const Catalogue& c, OpeningPrint& p, const OpeningSetup& s, const YamlNode& entry)
        : m_r(r), m_c(c), m_print(p), m_setup(s), m_entry(entry), m_node(*entry.find(QStringLiteral("print"))) {}

    void run(const Job& job) {
        moments();
        if (!job.printers.isEmpty() && !job.printers.contains(m_print.printer))
            return complain("job", QStringLiteral("job `%1` may not run on %2").arg(job.id, m_print.printer),
                            QStringLiteral("its `printers` are %1").arg(job.printers.join(QStringLiteral(", "))));
        const Variant* v = variant(job);
        if (!v) return;
        m_print.variant = v->name;
        // A job states minutes for every printer that it may go to, or it was refused.
        if (m_print.expected.count() == 0) m_print.expected = v->printMinutes(m_print.printer);
        wears(v->setup);
    }

private:
    void complain(const char* key, const QString& what, const QString& right) {
        m_r.complain(whereOf(m_node, QString::fromLatin1(key)), what, right);
    }
    void moments() {
        if (m_setup.lastPrint && m_print.started < *m_setup.lastPrint)
            complain("started", QStringLiteral("`started` lies before `last-print`"),
                     QStringLiteral("the last print had ended when this one began; check both"));
        if (m_c.fleet.exampleClock && m_print.started > instantOf(*m_c.fleet.exampleClock))
            complain("started", QStringLiteral("`started` lies after `example-clock`"),
                     QStringLiteral("it has not happened yet when the example begins"));
    }
    const Variant* variant(const Job& job) {
        if (m_print.variant.isEmpty() && job.variants.size() == 1) return &job.variants.first();
        QStringList names;
        for (const Variant& v : job.variants) {
            if (v.name == m_print.variant && !v.name.isEmpty()) return &v;
            names.append(v.name);
        }
        const QString known = names.join(QStringLiteral(", "));
        if (m_print.variant.isEmpty()) {
            complain("variant", QStringLiteral("job `%1` has %2 variants").arg(job.id).arg(names.size()),
                     QStringLiteral("add `variant`: one of %1").arg(known));
            return nullptr;
        }
        const auto near = didYouMean(m_print.variant, names);
        complain("variant", QStringLiteral("job `%1` has no variant `%2`").arg(job.id, m_print.variant),
                 near ? QStringLiteral("did you mean `%1`?").arg(*near) : QStringLiteral("it has %1").arg(known));
        return nullptr;
    }
    /// The print runs with what the setup names.
    void wears(const Setup& wanted) {
        const auto same = [&](const QString& has, const QString& wants, const char* key) {
            if (wants.isEmpty() || has == wants) return;
            m_r.complain(whereOf(m_entry, QString::fromLatin1(key)),
                         QStringLiteral("`%1` is %2, but the running print is made with %3")
                             .arg(QString::fromLatin1(key), has.isEmpty() ? QStringLiteral("not given") : has, wants),
                         QStringLiteral("check the setup, and job and variant of the print"));
        };
        same(m_setup.label, wanted.label, "label");
        same(m_setup.part, wanted.part, "part");
        same(m_setup.support, wanted.support, "support");
        sameType(m_setup.partNozzle, wanted.partNozzle, "part-nozzle");
        sameType(m_setup.supportNozzle, wanted.supportNozzle, "support-nozzle");
    }
    void sameType(const NozzleSerial& serial, const NozzleTypeId& wants, const char* key) {
        const auto n = std::find_if(m_c.openings.nozzles.begin(), m_c.openings.nozzles.end(),
                                    [&](const Nozzle& each) { return each.serial == serial; });
        if (wants.isEmpty() || (!serial.isEmpty() && !m_r.sure(Kind::Nozzle, serial))) return;
        const NozzleTypeId has = n == m_c.openings.nozzles.end() ? NozzleTypeId() : n->type;
        if (has == wants) return;
        m_r.complain(whereOf(m_entry, QString::fromLatin1(key)),
                     QStringLiteral("`%1` is %2, but the running print is made with a nozzle of type `%3`")
                         .arg(QString::fromLatin1(key),
                              serial.isEmpty() ? QStringLiteral("not given")
                                               : QStringLiteral("`%1` of type `%2`").arg(serial, has),
                              wants),
                     QStringLiteral("check the setup, and job and variant of the print"));
    }

    Reading& m_r;
    const Catalogue& m_c;
    OpeningPrint& m_print;
    const OpeningSetup& m_setup;
    const YamlNode& m_entry;
    const YamlNode& m_node;
};

} // namespace

void settleRunningPrints(Reading& r, Catalogue& c) {
    const YamlNode* root = r.tree(QStringLiteral("setups.yaml"));
    const YamlNode* list = root ? root->find(QStringLiteral("setups")) : nullptr;
    if (!list) return;
    QHash<JobId, Where> seen;
    for (OpeningPrint& p : c.openings.prints) {
        const auto entry = std::find_if(list->items.begin(), list->items.end(), [&](const YamlNode& n) {
            const YamlNode* printer = n.find(QStringLiteral("printer"));
            return printer && printer->text.trimmed() == p.printer && n.find(QStringLiteral("print"));
        });
        const auto setup = std::find_if(c.openings.setups.cbegin(), c.openings.setups.cend(),
                                        [&](const OpeningSetup& s) { return s.printer == p.printer; });
        const auto job = std::find_if(c.openings.jobs.cbegin(), c.openings.jobs.cend(),
                                      [&](const Job& j) { return j.id == p.job; });
        if (entry == list->items.end() || setup == c.openings.setups.cend() || job == c.openings.jobs.cend()) continue;
        const Where at = whereOf(*entry->find(QStringLiteral("print")), QStringLiteral("job"));
        if (const auto first = seen.constFind(p.job); first != seen.constEnd())
            r.complain(at, QStringLiteral("job `%1` is printed in two places").arg(p.job),
                       QStringLiteral("line %1 has it already").arg(first->line));
        seen.insert(p.job, at);
        if (r.sure(Kind::Job, p.job)) RunningPrintCheck(r, c, p, *setup, *entry).run(*job);
    }
}

} // namespace interlude
