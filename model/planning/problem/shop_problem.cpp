#include "model/planning/problem/shop_problem.h"

#include "model/changeover/remaining.h"
#include "model/planning/problem/foresee.h"
#include "model/planning/problem/imagined_stock.h"
#include "model/planning/problem/printer_text.h"

#include <QDataStream>
#include <QIODevice>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <mutex>
#include <tuple>

namespace interlude::planning {

Orders ShopProblem::noOrders() const {
    Orders o;
    o.printers.resize(problem.printers.size());
    o.locked.assign(problem.jobs.size(), 0);
    o.leftOut = plannable;
    return o;
}

QString setupText(const Setup& s) {
    if (!s.label.isEmpty()) return s.label;
    QString text = s.part;
    if (!s.support.isEmpty()) text += QStringLiteral(" with ") + s.support;
    if (!s.partNozzle.isEmpty()) text += QStringLiteral(", ") + s.partNozzle;
    if (!s.supportNozzle.isEmpty()) text += QStringLiteral(" / ") + s.supportNozzle;
    return text;
}

namespace {

/// Life is counted in billionths of the rated life.
constexpr double wholeLife = 1e9;
constexpr int leastDays = 60, mostDays = 500, farthestDays = 3660;

/// What no dress of a printer changes. Judging every variant on every printer is most of the work of a problem, and a shop
/// asks for a new problem after every act; so the answers stay for the next one, as long as catalogue and printer are the
/// same. Asked from several threads.
class Forbidden {
public:
    std::optional<QString> find(const CataloguePtr& catalogue, const QByteArray& key) {
        const std::lock_guard lock(m_mutex);
        if (m_catalogue.lock() != catalogue) return {};
        const auto known = m_answers.constFind(key);
        return known == m_answers.cend() ? std::nullopt : std::optional(*known);
    }
    void keep(const CataloguePtr& catalogue, const QByteArray& key, const QString& why) {
        const std::lock_guard lock(m_mutex);
        if (m_catalogue.lock() != catalogue || m_answers.size() >= most) m_answers.clear();
        m_catalogue = catalogue;
        m_answers.insert(key, why);
    }

private:
    static constexpr qsizetype most = 20'000;
    std::mutex m_mutex;
    std::weak_ptr<const Catalogue> m_catalogue;
    QHash<QByteArray, QString> m_answers;
};

Forbidden& forbidden() {
    static Forbidden answers;
    return answers;
}

class Builder {
public:
    Builder(const Shop& shop, Instant now, const WhatIf& whatIf)
        : m_shop(shop), m_catalogue(shop.catalogue()), m_now(std::chrono::ceil<std::chrono::minutes>(now)), m_whatIf(whatIf),
          m_types(nozzleTypeNumbers(m_catalogue)), m_families(meltFamilyNumbers(m_catalogue)) {}

    ShopProblem build() {
        m_out.now = m_now;
        addJobs();
        makeGround();
        addNozzles();
        addPrinters();
        addVariants();
        addCrewAndTools();
        m_out.problem.changes = m_out.changes;
        return std::move(m_out);
    }

private:
    void addJobs() {
        QList<Job> all = m_shop.jobs();
        all += m_whatIf.rush;
        for (const Job& j : all) {
            const bool wanted = j.state == JobState::Open || j.state == JobState::Failed;
            const bool there = j.state == JobState::Printing || j.state == JobState::PartLying;
            if (!wanted && !there) continue;
            const int number = static_cast<int>(m_out.jobs.size());
            m_out.jobNumbers.insert(j.id, number);
            m_out.jobs.append(j);
            if (wanted) m_out.plannable.push_back(number);
            JobNumbers n;
            n.id = j.id.toStdString();
            if (j.release) n.release = minutesUp(*j.release, m_now);
            if (j.due) n.due = minutesDown(*j.due, m_now);
            n.lateCostPerHour = j.lateCostPerHour.cents();
            n.holdingCostPerHour = j.holdingCostPerHour.cents();
            m_out.problem.jobs.push_back(std::move(n));
        }
        for (qsizetype i = 0; i < m_catalogue.fleet.printers.size(); ++i)
            m_out.printerNumbers.insert(m_catalogue.fleet.printers[i].id, static_cast<int>(i));
    }

    static QString setupKey(const Setup& setup) {
        // A label may read like a setup of materials.
        if (!setup.label.isEmpty()) return QStringLiteral("label|") + setup.label;
        return setupText(setup) + (setup.chamber ? QStringLiteral("@%1").arg(setup.chamber->milliCelsius()) : QString());
    }

    int setupNumber(const Setup& setup) {
        const QString text = setupKey(setup);
        const auto found = m_setupNumbers.constFind(text);
        if (found != m_setupNumbers.cend()) return *found;
        const int number = static_cast<int>(m_ground->setups.size());
        m_setupNumbers.insert(text, number);
        m_setupKeys.append(text);
        m_ground->setups.append(setup);
        return number;
    }

    void makeGround() {
        m_ground = std::make_shared<ChangesGround>();
        m_ground->catalogue = m_shop.cataloguePtr();
        m_ground->stock = imaginedStock(m_catalogue);
        m_ground->now = m_now;
        bool labels = !m_catalogue.fleet.printers.isEmpty();
        for (const Job& j : m_out.jobs) {
            std::vector<int> numbers;
            for (const Variant& v : j.variants) {
                numbers.push_back(setupNumber(v.setup));
                labels = labels && !v.setup.label.isEmpty();
            }
            m_ground->setupOf.push_back(std::move(numbers));
        }
        for (const Printer& p : m_catalogue.fleet.printers)
            m_ground->presentSetup.push_back(setupNumber(presentSetup(*m_shop.printer(p.id))));
        QHash<QString, int> kinds;
        for (const Printer& p : m_catalogue.fleet.printers) {
            const QString key = p.hasMeasured ? QStringLiteral("table|") + p.id : p.type + (p.unattended ? QStringLiteral("|alone") : QString());
            labels = labels && p.hasMeasured;
            if (!kinds.contains(key)) {
                kinds.insert(key, static_cast<int>(m_ground->printerOf.size()));
                m_ground->printerOf.push_back(p.id);
                QHash<std::pair<QString, QString>, MeasuredChangeover> table;
                for (const MeasuredChangeover& m : p.measured) table.insert({m.from, m.to}, m);
                m_ground->measured.push_back(std::move(table));
            }
            m_ground->kindOf.push_back(kinds.value(key));
        }
        m_ground->pairwise = labels;
        m_out.problem.scarceNozzles = !labels;
        m_out.changes = std::make_shared<ShopChanges>(m_ground);
    }

    Setup presentSetup(const PrinterNow& p) const {
        Setup s;
        s.label = p.label;
        if (!s.label.isEmpty()) return s;
        const auto typeOf = [&](const NozzleSerial& serial) {
            const auto n = m_shop.stock().nozzles.constFind(serial);
            return n == m_shop.stock().nozzles.cend() ? NozzleTypeId() : n->type;
        };
        s.part = p.part.loaded;
        s.partNozzle = typeOf(p.part.nozzle);
        if (!p.lastSupport.isEmpty()) {
            s.support = p.support.loaded;
            s.supportNozzle = typeOf(p.support.nozzle);
        }
        return s;
    }

    std::int64_t lifeOf(Volume v, const NozzleTypeId& type, const MaterialId& material) const {
        const NozzleType* t = m_catalogue.nozzleType(type);
        const Material* m = m_catalogue.material(material);
        if (!t || !m) return 0;
        const Volume rated = m->abrasive ? t->ratedLifeAbrasive : t->ratedLife;
        if (rated.mm3() <= 0) return 0;
        return static_cast<std::int64_t>(
            std::ceil(wholeLife * static_cast<double>(v.mm3()) / static_cast<double>(rated.mm3())));
    }

    void addNozzles() {
        QList<const Nozzle*> all;
        for (const Nozzle& n : m_shop.stock().nozzles)
            if (n.where != NozzleWhere::Retired) all.append(&n);
        std::sort(all.begin(), all.end(), [](const Nozzle* a, const Nozzle* b) {
            return std::pair(a->order, a->serial) < std::pair(b->order, b->serial);
        });
        for (const Nozzle* n : all) {
            NozzlePiece piece;
            piece.serial = n->serial.toStdString();
            piece.type = m_types.value(n->type, -1);
            piece.family = n->meltFamily.isEmpty() ? -1 : m_families.value(n->meltFamily, -2);
            if (const NozzleType* t = m_catalogue.nozzleType(n->type))
                if (const auto used = lifeUsed(*n, *t))
                    piece.life = static_cast<std::int64_t>(std::floor(wholeLife * std::max(0.0, 1.0 - *used)));
            if (n->where == NozzleWhere::Mounted) {
                piece.printer = m_out.printerNumbers.value(n->place, -1);
                piece.position = n->position == Role::Part ? PartPosition : SupportPosition;
            }
            m_nozzleNumbers.insert(n->serial, static_cast<int>(m_out.problem.nozzles.size()));
            m_out.problem.nozzles.push_back(std::move(piece));
        }
    }

    void addPrinters() {
        for (const Printer& p : m_catalogue.fleet.printers) {
            const PrinterNow& now = *m_shop.printer(p.id);
            const PrinterType* type = m_catalogue.typeOf(p.id);
            PrinterNumbers n;
            n.id = p.id.toStdString();
            if (type) n.hourlyRate = type->hourlyRate.cents();
            if (type) n.nozzleRemoval = type->nozzleRemoval.count();
            n.mounted = {m_nozzleNumbers.value(now.part.nozzle, -1), m_nozzleNumbers.value(now.support.nozzle, -1)};
            n.state = m_out.changes->stateOf(imagined(m_catalogue, m_shop.stock(), asPrintEnds(now)));
            addRunning(n, now);
            addSession(n, p, now);
            addDowntime(n, p, now);
            m_out.problem.printers.push_back(std::move(n));
        }
    }

    void addRunning(PrinterNumbers& n, const PrinterNow& now) {
        const bool printing = now.activity == Activity::Printing ||
                              (now.activity == Activity::Down && now.printExpectedEnd.has_value());
        if (!printing && now.job.isEmpty() && now.activity != Activity::PartLying) return;
        n.partLies = true;
        // A part that failed lies there for itself: its job waits to be printed again.
        const Job* job = m_shop.job(now.job);
        if (job && (job->state == JobState::Printing || job->state == JobState::PartLying))
            n.runningJob = m_out.jobNumbers.value(now.job, -1);
        if (n.runningJob >= 0)
            n.runningVariant = m_out.jobs[n.runningJob].variantNumber(now.variant);
        if (printing) {
            n.runningStart = now.printStarted ? std::min<Minute>(0, minutesDown(*now.printStarted, m_now)) : 0;
            n.runningEnd = now.printExpectedEnd ? std::max<Minute>(0, minutesUp(*now.printExpectedEnd, m_now)) : 0;
            takeRunningLife(n);
        } else {
            n.runningEnd = now.lastPrintEnd ? std::min<Minute>(0, minutesDown(*now.lastPrintEnd, m_now)) : 0;
            n.runningStart = n.runningEnd;
        }
    }

    /// Life is deducted at print start; the shop notes what went through a nozzle when the print has ended.
    void takeRunningLife(const PrinterNumbers& n) {
        if (n.runningJob < 0 || n.runningVariant < 0) return;
        const Variant& v = m_out.jobs[n.runningJob].variants[n.runningVariant];
        const std::array<std::int64_t, 2> taken{lifeOf(v.partVolume, v.setup.partNozzle, v.setup.part),
                                                lifeOf(v.supportVolume, v.setup.supportNozzle, v.setup.support)};
        for (std::size_t position = 0; position < 2; ++position) {
            if (n.mounted[position] < 0) continue;
            auto& life = m_out.problem.nozzles[static_cast<std::size_t>(n.mounted[position])].life;
            if (life) life = std::max<std::int64_t>(0, *life - taken[position]);
        }
    }

    void addSession(PrinterNumbers& n, const Printer& p, const PrinterNow& now) {
        const SessionState* s = m_shop.openSession(p.id);
        if (!s || s->doneStep(Effect::StartPrint)) return;
        n.session = true;
        QSet<StepId> settled;
        QMap<StepId, Minutes> left;
        for (const PlannedStep& step : s->changeover.steps) {
            const StepProgress& progress = s->progress(step.step.id);
            if (s->settled(step.step.id)) settled.insert(step.step.id);
            else if (progress.started)
                left.insert(step.step.id,
                            std::max(Minutes(0), step.planned - std::chrono::floor<Minutes>(m_now - *progress.started)));
        }
        n.sessionWork = m_out.changes->worksOf(remainingSegments(s->changeover, settled, left, p.unattended), s->changeover);
        const TransitionRequest& request = s->changeover.transition.request;
        n.sessionJob = m_out.jobNumbers.value(request.job, -1);
        if (n.sessionJob >= 0) {
            std::erase(m_out.plannable, n.sessionJob);
            n.sessionVariant = std::max(0, m_out.jobs[n.sessionJob].variantNumber(request.variant));
        }
        keepNozzles(n, *s);
        PrinterNow after = imagined(m_catalogue, m_shop.stock(),
                                    foreseePrinted(m_catalogue, m_shop.stock(), now, s->changeover, settled));
        if (n.sessionJob < 0) {
            after.activity = Activity::Idle;
            after.job.clear();
        }
        after.lastPrintEnd = m_now;
        n.sessionState = m_out.changes->stateOf(after);
    }

    /// What a session has chosen and not mounted yet lies on a shelf, and serves nothing else.
    void keepNozzles(PrinterNumbers& n, const SessionState& s) {
        for (const NozzleChange& change : s.changeover.transition.nozzles) {
            const auto position = static_cast<std::size_t>(change.role == Role::Part ? PartPosition : SupportPosition);
            const Effect mounting = change.role == Role::Part ? Effect::MountNozzlePart : Effect::MountNozzleSupport;
            const int nozzle = m_nozzleNumbers.value(change.in, -1);
            if (!change.exchange || nozzle < 0 || s.doneStep(mounting)) continue;
            NozzlePiece& piece = m_out.problem.nozzles[static_cast<std::size_t>(nozzle)];
            if (piece.printer >= 0) continue;
            n.sessionNozzles[position] = nozzle;
            const Setup& wanted = s.changeover.transition.request.wanted;
            const Material* m = m_catalogue.material(change.role == Role::Part ? wanted.part : wanted.support);
            if (piece.family < 0 && m) piece.family = m_families.value(m->meltFamily, -2);
        }
    }

    void addDowntime(PrinterNumbers& n, const Printer& p, const PrinterNow& now) const {
        std::vector<Span> spans;
        if (now.activity == Activity::Down)
            spans.push_back({0, now.downUntil ? std::max<Minute>(0, minutesUp(*now.downUntil, m_now)) : never});
        QList<Downtime> planned = m_whatIf.downtimes;
        for (const PlannedDowntime& d : m_shop.downtimes()) planned.append({d.printer, d.from, d.to});
        for (const Downtime& d : planned)
            if (d.printer == p.id)
                spans.push_back({std::max<Minute>(0, minutesDown(d.from, m_now)), d.to ? minutesUp(*d.to, m_now) : never});
        std::erase_if(spans, [](const Span& s) { return s.to <= s.from; });
        std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
        for (const Span& s : spans) {
            if (!n.down.empty() && s.from <= n.down.back().to) n.down.back().to = std::max(n.down.back().to, s.to);
            else n.down.push_back(s);
        }
    }

    void addVariants() {
        for (const PrinterNumbers& p : m_out.problem.printers) m_printerTexts.append(printerText(m_out.changes->printerIn(p.state)));
        for (qsizetype j = 0; j < m_out.jobs.size(); ++j) {
            const auto job = static_cast<std::size_t>(j);
            for (const int setup : m_ground->setupOf[job]) {
                std::vector<VariantNumbers>& variants = m_out.problem.jobs[job].variants;
                variants.push_back(numbersOf(m_out.jobs[j], m_out.jobs[j].variants[static_cast<qsizetype>(variants.size())], setup));
            }
        }
    }

    VariantNumbers numbersOf(const Job& job, const Variant& v, int setup) {
        VariantNumbers n;
        n.name = v.name.toStdString();
        n.setup = setupText(v.setup).toStdString();
        n.life = {lifeOf(v.partVolume, v.setup.partNozzle, v.setup.part),
                  lifeOf(v.supportVolume, v.setup.supportNozzle, v.setup.support)};
        n.family = familyOf(v.setup);
        for (const Printer& p : m_catalogue.fleet.printers) {
            QString why = whyNot(job, v, setup, p);
            const Minutes print = v.printMinutes(p.id);
            if (why.isEmpty() && !v.printOn.empty() && v.printOn.find(p.id) == v.printOn.end() && print <= Minutes(0))
                why = QStringLiteral("no print minutes are stated for %1").arg(m_catalogue.printerName(p.id));
            n.print.push_back(why.isEmpty() ? print.count() : -1);
            n.whyNot.push_back(why.toStdString());
        }
        return n;
    }

    int familyOf(const Setup& setup) {
        const Material* m = m_catalogue.material(setup.part);
        const QString family = m ? m->chamberFamily : setup.label;
        if (!m_out.chamberFamilies.contains(family)) m_out.chamberFamilies.append(family);
        return static_cast<int>(m_out.chamberFamilies.indexOf(family));
    }

    /// What forbids it on this printer whatever is dressed there; empty when nothing does.
    QString whyNot(const Job& job, const Variant& v, int setup, const Printer& p) {
        if (!job.printers.isEmpty() && !job.printers.contains(p.id)) {
            QStringList names;
            for (const PrinterId& id : job.printers) names << m_catalogue.printerName(id);
            return QStringLiteral("job %1 may go to %2 only").arg(job.id, names.join(QStringLiteral(", ")));
        }
        if (!v.setup.label.isEmpty()) {
            if (p.hasMeasured) return {};
            return QStringLiteral("setup %1 is known only by its label, and %2 has no table of measured changeovers")
                .arg(v.setup.label, m_catalogue.printerName(p.id));
        }
        const int printer = m_out.printerNumbers.value(p.id);
        // Printers of a kind take the same jobs; a reason why not tells the printer's name.
        constexpr int all = -1;
        Question question{m_ground->kindOf[static_cast<std::size_t>(printer)], all, setup, sizeOf(job)};
        if (const auto known = m_whyNot.find(question); known != m_whyNot.end()) return known->second;
        Question own = question;
        std::get<1>(own) = printer;
        if (const auto known = m_whyNot.find(own); known != m_whyNot.end()) return known->second;
        const QString why = judged(job, v, setup, p);
        m_whyNot.emplace(why.isEmpty() ? question : own, why);
        return why;
    }

    /// In µm; all below zero where none is stated.
    static std::array<std::int64_t, 3> sizeOf(const Job& job) {
        if (!job.envelope) return {-1, -1, -1};
        return {job.envelope->x.micrometres(), job.envelope->y.micrometres(), job.envelope->z.micrometres()};
    }

    QString judged(const Job& job, const Variant& v, int setup, const Printer& p) {
        const int printer = m_out.printerNumbers.value(p.id);
        QByteArray key;
        QDataStream out(&key, QIODevice::WriteOnly);
        out << p.id << m_setupKeys[setup] << m_printerTexts[printer];
        for (const std::int64_t side : sizeOf(job)) out << static_cast<qint64>(side);
        if (const auto known = forbidden().find(m_ground->catalogue, key)) return *known;
        TransitionRequest r;
        r.now = m_out.changes->printerIn(m_out.problem.printers[static_cast<std::size_t>(printer)].state);
        r.now.id = p.id;
        r.wanted = v.setup;
        r.job = job.id;
        r.envelope = job.envelope;
        QString why;
        for (const Finding& f : refusalsIn(judgeTransition(m_catalogue, m_ground->stock, r, m_now).verdicts))
            if (why.isEmpty() && f.rule != QStringLiteral("purge-windows")) why = f.reason; // the one that passes by
        forbidden().keep(m_ground->catalogue, key, why);
        return why;
    }

    /// What is released late, or waits for a printer that is down for long, needs people then, too.
    int daysUntilAllMayBegin() const {
        Minute latest = 0;
        for (const JobNumbers& j : m_out.problem.jobs) latest = std::max(latest, j.release.value_or(0));
        for (const PrinterNumbers& p : m_out.problem.printers)
            for (const Span& d : p.down)
                if (d.to < never) latest = std::max(latest, d.to);
        return static_cast<int>(std::min<Minute>(latest / (24 * 60), farthestDays));
    }

    void addCrewAndTools() {
        Minute most = 0;
        for (const JobNumbers& j : m_out.problem.jobs) {
            Minute longest = 0;
            for (const VariantNumbers& v : j.variants)
                for (const Minute m : v.print) longest = std::max(longest, m);
            most += longest + 24 * 60;
        }
        const int days = std::clamp(static_cast<int>(most / (24 * 60)) + 14, leastDays, mostDays) + daysUntilAllMayBegin();
        QList<Absence> absences = m_whatIf.absences;
        for (const PlannedAbsence& a : m_shop.absences()) absences.append({a.from, a.to, a.people});
        m_out.problem.crew = crewCalendar(m_catalogue.fleet, absences, m_now, days);
        if (m_ground->pairwise) return; // measured figures name no tools
        for (const Tool& t : m_catalogue.fleet.tools) {
            m_out.problem.tools.push_back(t.id.toStdString());
            m_out.problem.toolPieces.push_back(std::max(1, t.quantity));
        }
    }

    const Shop& m_shop;
    const Catalogue& m_catalogue;
    Instant m_now;
    const WhatIf& m_whatIf;
    QHash<QString, int> m_types, m_families, m_setupNumbers, m_nozzleNumbers;
    QStringList m_setupKeys;           ///< by number of setup
    QList<QByteArray> m_printerTexts;  ///< by number of printer
    /// Kind of printer, printer or all of the kind, setup, size of the part: asked for every variant on every printer.
    using Question = std::tuple<int, int, int, std::array<std::int64_t, 3>>;
    std::map<Question, QString> m_whyNot;
    std::shared_ptr<ChangesGround> m_ground;
    ShopProblem m_out;
};

} // namespace

ShopProblem shopProblem(const Shop& shop, Instant now, const WhatIf& whatIf) {
    return Builder(shop, now, whatIf).build();
}

} // namespace interlude::planning
