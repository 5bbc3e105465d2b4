#include "views/changeover/guide_desk.h"

#include "model/planning/plans/published.h"
#include "model/session/work.h"
#include "model/shop/take_back.h"
#include "views/asking/ask_dialog.h"
#include "views/bench/keys.h"
#include "views/words/words.h"

namespace interlude {

namespace {

/// An answer that was typed rather than given by its key.
std::optional<bool> yesOrNo(const QString& text) {
    const QString word = text.trimmed().toLower();
    if (word == GuideDesk::tr("yes") || word == GuideDesk::tr("y")) return true;
    if (word == GuideDesk::tr("no") || word == GuideDesk::tr("n")) return false;
    return std::nullopt;
}

} // namespace

GuideDesk::GuideDesk(Bench& bench, QObject* parent) : QObject(parent), m_bench(bench) {
    // Something could be recorded: what was refused before is tried again.
    connect(&bench, &Bench::changed, this, [this] { m_refusedStarts.clear(); });
}

const SessionState* GuideDesk::session() const {
    const SessionState* s = m_number > 0 ? m_bench.shop().session(m_number) : nullptr;
    return s && s->isOpen() ? s : nullptr;
}

const PlannedStep* GuideDesk::shown() const {
    const SessionState* s = session();
    if (!s) return nullptr;
    const auto still = [&](const StepId& id) {
        const StepState state = s->progress(id).state;
        return !id.isEmpty() && state != StepState::Done && state != StepState::Skipped;
    };
    if (still(m_chosen)) return s->changeover.step(m_chosen);
    // A paper checklist is entered from top to bottom; no wait runs by itself then.
    if (s->enteredLate)
        for (const PlannedStep& planned : s->changeover.steps)
            if (still(planned.step.id) && isFree(*s, planned)) return &planned;
    if (still(m_guide.current)) return s->changeover.step(m_guide.current);
    const Countdown* first = nullptr;
    for (const Countdown& c : m_guide.waits)
        if (still(c.step) && (!first || (c.due && (!first->due || *c.due < *first->due)))) first = &c;
    return first ? s->changeover.step(first->step) : nullptr;
}

StepEntry* GuideDesk::entry() {
    const PlannedStep* planned = shown();
    if (!planned) return nullptr;
    const QString key = QStringLiteral("%1/%2").arg(m_number).arg(planned->step.id);
    auto found = m_entries.find(key);
    if (found == m_entries.end()) {
        found = m_entries.insert(key, StepEntry(m_number, *planned));
    }
    found->wantUseOf(nozzleToState(m_bench.shop(), *planned, found->scanned()));
    return &*found;
}

MeasuredNow GuideDesk::measured() const {
    const PlannedStep* planned = shown();
    if (!planned) return {};
    return measuredNow(*session(), planned->step, happenedAt().value_or(m_bench.now()));
}

QList<Missing> GuideDesk::missing() {
    StepEntry* e = entry();
    return e ? e->missing(measured()) : QList<Missing>();
}

QString GuideDesk::confirmText() {
    StepEntry* e = entry();
    return e ? e->confirmText(measured()) : QString();
}

std::optional<Instant> GuideDesk::happenedAt() const {
    const SessionState* s = session();
    return s && s->enteredLate ? m_lateTime : std::nullopt;
}

void GuideDesk::setSession(qint64 number) {
    if (number != m_number) {
        m_chosen.clear();
        m_lateTime.reset();
        m_refusedStarts.clear();
    }
    m_number = number;
    refresh();
}

void GuideDesk::choose(const StepId& step) {
    m_chosen.clear();
    for (const GuideStep& g : m_guide.steps)
        if (g.id == step && (g.mark == StepMark::Ready || g.mark == StepMark::Running)) m_chosen = step;
    m_lateTime.reset();
    refresh();
}

void GuideDesk::refresh() {
    if (m_busy) return;
    m_busy = true;
    if (const SessionState* s = session()) {
        startWaits();
        m_guide = interlude::guide(m_bench.shop(), *s, m_bench.now());
        addPlanned(s->printer);
        const PlannedStep* planned = shown();
        if (s->enteredLate && !m_lateTime && planned) {
            Instant before = s->started;
            for (const StepProgress& p : s->steps)
                if (p.ended) before = std::max(before, *p.ended);
            m_lateTime = std::min(before + planned->planned, m_bench.now());
        }
    } else {
        m_guide = Guide();
    }
    m_busy = false;
    Q_EMIT changed();
}

/// What the published plan has for other printers soon can be made ready during a wait here.
void GuideDesk::addPlanned(const PrinterId& here) {
    constexpr Minutes soon{60};
    for (const PrinterNow& p : m_bench.shop().printers()) {
        if (p.id == here || p.activity == Activity::Down || m_bench.shop().openSession(p.id)) continue;
        const auto next = planning::nextPlanned(m_bench.shop(), p.id);
        if (!next || next->changeover > m_bench.now() + soon) continue;
        m_guide.meanwhile.append({p.id, 0, {}, tr("%1: changeover to %2 planned for %3; fetch what it needs")
                                                   .arg(m_bench.catalogue().printerName(p.id), next->job, m_bench.shortTime(next->changeover))});
    }
}

void GuideDesk::startWaits() {
    // Nobody signed in: the window is read-only, a wait then starts with the next person.
    const SessionState* s = session();
    if (m_bench.who().isEmpty() || s->phase != SessionPhase::Open || s->enteredLate) return;
    for (const QString& step : startableWaits(m_bench.shop(), *s)) {
        if (m_refusedStarts.contains(step)) continue;
        if (!m_bench.perform(act::StepStarted{m_number, step})) m_refusedStarts.append(step);
    }
}

std::optional<int> GuideDesk::scanThatMatches(const QList<Missing>& missing, const QString& text, Finding& why) {
    const SessionState* s = session();
    bool explained = false;
    for (const Missing& m : missing) {
        if (m.what != Missing::What::Scan) continue;
        auto match = matchScan(m_bench.shop(), *s, shown()->step.id, m.index, text);
        if (match) return m.index;
        if (!explained) why = match.error();
        explained = true;
    }
    if (!explained)
        why = Finding{Severity::Refusal, QStringLiteral("scan"), tr("“%1”: nothing is left to scan here").arg(text),
                      missing.isEmpty() ? tr("press %1 to confirm").arg(keyText(QStringLiteral("guide.confirm"))) : missing.first().text, {}, false};
    return std::nullopt;
}

bool GuideDesk::give(const Missing& m, const QString& text, bool, Finding& why) {
    StepEntry* e = entry();
    const Instant at = happenedAt().value_or(m_bench.now());
    if (m.what == Missing::What::Use) {
        auto run = words::readRunVolume(text);
        if (!run) return why = run.error(), false;
        e->state(*run);
        Q_EMIT accepted(tr("use so far: %1").arg(words::runVolume(*run)));
        return true;
    }
    const bool reading = m.what == Missing::What::Reading;
    const QString unit = reading ? shown()->step.confirm.readings.at(m.index).unit : QString();
    auto value = words::readNumber(text, unit);
    if (!value) return why = value.error(), false;
    if (reading) {
        e->read(m.index, m.time, *value, at);
        Q_EMIT accepted(QStringLiteral("%1 %2").arg(words::number(*value), unit).trimmed());
        return true;
    }
    const auto against = readTemperature(shown()->step.measuredAt, *value);
    if (against) why = *against;
    return !against;
}

std::optional<Finding> GuideDesk::readTemperature(Sensor sensor, double celsius) {
    if (m_lateTrouble) return m_lateTrouble;
    const act::TemperatureRead read{m_number, sensor, Temperature::fromCelsius(celsius), {}};
    const Findings said = m_bench.workbench().objections(read, m_bench.who());
    const auto done = m_bench.workbench().perform(read, m_bench.who(), happenedAt());
    if (!done) return done.error();
    Q_EMIT accepted(tr("%1 %2").arg(words::sensor(sensor), words::celsius(read.value)));
    for (Finding f : said) {
        if (f.severity != Severity::Warning) continue;
        f.reason = tr("Noted, but %1").arg(f.reason);
        Q_EMIT wrong(f, false);
    }
    return std::nullopt;
}

const Countdown* GuideDesk::countdown() const {
    const PlannedStep* planned = shown();
    for (const Countdown& c : m_guide.waits)
        if (planned && c.step == planned->step.id) return &c;
    return nullptr;
}

void GuideDesk::enter(const QString& text, bool typed) {
    if (!session() || !shown()) return;
    const QList<Missing> all = missing();
    Finding why;
    const bool number = !all.isEmpty() && all.first().what != Missing::What::Scan &&
                        all.first().what != Missing::What::Answer;
    if (number && give(all.first(), text, typed, why)) return refresh();
    if (!all.isEmpty() && all.first().what == Missing::What::Answer)
        if (const auto yes = yesOrNo(text)) return answerAt(all.first().index, *yes);
    // A step that closes on a reading takes another one while it is not closed; while nothing but a temperature runs down, a
    // number is what somebody has read there.
    if (all.isEmpty() && shown()->step.onlyBelow && words::readNumber(text)) return measure(text);
    const Countdown* running = countdown();
    if (all.isEmpty() && running && running->sensor && words::readNumber(text)) {
        logTemperature(*running->sensor, text);
        return;
    }
    Finding scanWhy;
    if (const auto index = scanThatMatches(all, text, scanWhy)) {
        entry()->scan(*index, text, typed);
        Q_EMIT accepted(typed ? tr("%1 typed").arg(text) : tr("%1 scanned").arg(text));
        return refresh();
    }
    // What was wanted first explains the refusal, unless it was clearly meant as a scan.
    const bool scan = !number || text.contains(QRegularExpression(QStringLiteral("^[A-Za-z]")));
    Q_EMIT wrong(scan && !number ? scanWhy : number ? why : scanWhy, scan);
}

void GuideDesk::answer(bool yes) {
    for (const Missing& m : missing()) {
        if (m.what == Missing::What::Answer) return answerAt(m.index, yes);
        if (m.what == Missing::What::Use && !yes) return state(QStringLiteral("no history"));
    }
}

void GuideDesk::answerAt(int index, bool yes) {
    StepEntry* e = entry();
    if (!e) return;
    e->answer(index, yes);
    const AnswerWanted& w = e->step().confirm.answers.at(index);
    if (w.mustBe && *w.mustBe != yes)
        Q_EMIT wrong(Finding{Severity::Refusal, QStringLiteral("answer"),
                             tr("the step goes on only with %1").arg(*w.mustBe ? tr("Yes") : tr("No")),
                             tr("put it right, or report a problem"), w.question, false},
                     false);
    else
        Q_EMIT accepted(yes ? tr("Yes") : tr("No"));
    refresh();
}

void GuideDesk::read(int index, int time, const QString& text) {
    Finding why;
    if (!entry() || give({Missing::What::Reading, index, time, {}}, text, true, why)) return refresh();
    Q_EMIT wrong(why, false);
}

void GuideDesk::measure(const QString& text) {
    Finding why;
    if (!entry() || give({Missing::What::Measure, 0, 0, {}}, text, true, why)) return refresh();
    Q_EMIT wrong(why, false);
}

void GuideDesk::state(const QString& text) {
    Finding why;
    if (!entry() || give({Missing::What::Use, 0, 0, {}}, text, true, why)) return refresh();
    Q_EMIT wrong(why, false);
}

bool GuideDesk::logTemperature(Sensor sensor, const QString& text) {
    auto value = words::readNumber(text);
    if (!value) {
        Q_EMIT wrong(value.error(), false);
        return false;
    }
    const auto against = readTemperature(sensor, *value);
    if (against) Q_EMIT wrong(*against, false);
    refresh();
    return !against;
}

std::optional<Finding> GuideDesk::perform(const act::StepConfirmed& done) {
    if (m_lateTrouble) return m_lateTrouble;
    auto event = m_bench.workbench().perform(done, m_bench.who(), happenedAt());
    if (event) {
        m_entries.remove(QStringLiteral("%1/%2").arg(m_number).arg(done.step));
        m_chosen.clear();
        m_lateTime.reset();
    }
    refresh();
    return findingOf(event);
}

/// The wait in hand when its prediction says that it is not over: what runs down is the upper end, so it may well be.
/// A wait that closes on a reading is judged by that.
const Countdown* GuideDesk::notOver() const {
    const Countdown* c = countdown();
    const PlannedStep* planned = shown();
    const auto left = c ? c->left(m_bench.now()) : std::nullopt;
    return !left || *left <= Milliseconds(0) || planned->step.onlyBelow || !planned->step.confirm.readings.isEmpty() ? nullptr : c;
}

void GuideDesk::confirm() {
    StepEntry* e = entry();
    if (!e) return;
    if (const QList<Missing> all = missing(); !all.isEmpty()) {
        Q_EMIT wrong(Finding{Severity::Refusal, QStringLiteral("not-yet"), tr("not yet"), all.first().text, {}, false},
                     false);
        return;
    }
    act::StepConfirmed done = e->confirmation(measured());
    done.enteredLate = session()->enteredLate;
    const QString title = shown()->step.title;
    for (const Finding& f : refusalsIn(m_bench.workbench().objections(done, m_bench.who())))
        if (f.overridable) {
            Q_EMIT overrideWanted(f);
            return;
        }
    if (const Countdown* c = notOver()) {
        Q_EMIT earlyEndAsked(*c);
        return;
    }
    if (const auto finding = perform(done))
        Q_EMIT wrong(*finding, false);
    else
        Q_EMIT accepted(tr("%1: done").arg(title));
}

std::optional<Finding> GuideDesk::confirmEarly(const QString& why) {
    StepEntry* e = entry();
    const Countdown* c = notOver();
    if (!e || !missing().isEmpty()) return std::nullopt;
    act::StepConfirmed done = e->confirmation(measured());
    if (c) done.note = tr("ended with %1 left by the prediction: %2").arg(words::stretch(*c->left(m_bench.now())), why);
    const QString title = shown()->step.title;
    const auto finding = perform(done);
    if (!finding) Q_EMIT accepted(tr("%1: done").arg(title));
    return finding;
}

std::optional<Finding> GuideDesk::confirmWith(const act::Override& lifted) {
    StepEntry* e = entry();
    if (!e) return std::nullopt;
    act::StepConfirmed done = e->confirmation(measured());
    done.enteredLate = session()->enteredLate;
    done.overrides.append(lifted);
    return perform(done);
}

std::optional<Finding> GuideDesk::skip(const act::Override& because) {
    if (!shown()) return std::nullopt;
    if (m_lateTrouble) return m_lateTrouble;
    auto event = m_bench.workbench().perform(act::StepSkipped{m_number, shown()->step.id, because}, m_bench.who(),
                                             happenedAt());
    if (event) m_chosen.clear();
    refresh();
    return findingOf(event);
}

Outcome<StepId> GuideDesk::takeBackable() const {
    const SessionState* s = session();
    return s ? interlude::takeBackable(m_bench.shop(), *s)
             : Outcome<StepId>(refusal(QStringLiteral("take-back"), tr("no session is open")));
}

std::optional<Finding> GuideDesk::takeBack(const QString& why) {
    const auto step = takeBackable();
    if (!step) return step.error();
    auto event = m_bench.workbench().perform(act::TakenBack{m_number, *step, why}, m_bench.who());
    refresh();
    const PlannedStep* again = session() ? session()->changeover.step(*step) : nullptr;
    if (event && again) Q_EMIT accepted(tr("%1: taken back, open again").arg(again->step.title));
    return findingOf(event);
}

} // namespace interlude
