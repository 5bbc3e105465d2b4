#include "tests/shop/random_history.h"

namespace interlude::tests {

namespace {

/// Everything that a step asks for.
act::StepConfirmed rightly(const Workbench& bench, const SessionState& session, const PlannedStep& p) {
    act::StepConfirmed x;
    x.session = session.number;
    x.step = p.step.id;
    for (const QString& expected : p.expectedScans)
        x.scans.append({expected, false});
    for (const AnswerWanted& a : p.step.confirm.answers)
        x.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
    for (const ReadingWanted& r : p.step.confirm.readings)
        for (int i = 0; i < r.times; ++i)
            x.readings.append({r.name, 50, r.unit, r.instrument, bench.now()});
    if (p.step.onlyBelow) {
        x.measured = celsius(45);
        x.measuredAt = bench.now();
    }
    const bool mounts = p.step.effect == Effect::MountNozzlePart || p.step.effect == Effect::MountNozzleSupport;
    if (mounts && !bench.shop().stock().nozzles.value(p.expectedScans.value(0)).run.known)
        x.useSoFar = RunVolume{false, {}, {}};
    return x;
}

} // namespace

std::optional<Happening> RandomHistory::aboutSpools(const Workbench& bench) {
    const QStringList ids = bench.shop().stock().spools.keys();
    const auto any = [&] { return oneOf(ids); };
    switch (below(8)) {
    case 0: {
        Spool s;
        s.id = fresh("S-");
        s.material = oneOf(QStringList{text("abs"), text("pc"), text("acr"), text("pc-cf")});
        s.lot = fresh("L");
        s.left = grams(900);
        s.tare = grams(220);
        return act::SpoolReceived{s};
    }
    case 1: return act::SpoolWeighed{any(), grams(260 + below(700)), {}, grams(2)};
    case 2: return act::SpoolDried{any(), celsius(80), bench.now() - Minutes(200), bench.now() - Minutes(5)};
    case 3: return act::SpoolMoved{any(), oneOf(QStringList{text("rack"), text("cabinet")}), below(2) == 0};
    case 4: return act::SpoolLoaded{any(), oneOf(QStringList{text("bay-1"), text("bay-2")}), below(2) ? Role::Part : Role::Support};
    case 5: return act::SpoolUnloaded{any(), text("rack")};
    case 6: return act::SpoolRetired{any(), text("empty")};
    default: return act::SpoolWeighed{any(), grams(300 + below(500)), grams(200), grams(3)};
    }
}

std::optional<Happening> RandomHistory::aboutNozzles(const Workbench& bench) {
    const QStringList serials = bench.shop().stock().nozzles.keys();
    switch (below(4)) {
    case 0: {
        Nozzle n;
        n.serial = fresh("N-");
        n.type = text("h04");
        n.place = text("rack");
        return act::NozzleReceived{n};
    }
    case 1: return act::NozzleMeasured{oneOf(serials), Length::fromMicrometres(400 + below(30)), text("ct-1")};
    case 2: return act::NozzleUseStated{oneOf(serials), {true, cm3(below(900)), cm3(below(90))}};
    default:
        if (below(4))
            return {};
        return act::NozzleRetired{oneOf(serials), text("worn")};
    }
}

std::optional<Happening> RandomHistory::aboutJobs(const Workbench& bench) {
    const QList<Job> jobs = bench.shop().jobs();
    if (below(4) == 0 && !jobs.isEmpty())
        return act::JobWithdrawn{oneOf(jobs).id, text("cancelled")};
    Job j = bench.catalogue().openings.jobs.at(below(2));
    if (below(3) == 0 && !jobs.isEmpty()) {
        j.id = oneOf(jobs).id;
        j.quantity = 1 + below(9);
        return act::JobChanged{j};
    }
    j.id = fresh("R");
    j.variants[0].partVolume = cm3(1 + below(20));
    j.variants[0].supportVolume = cm3(below(4));
    return act::JobAdded{j};
}

std::optional<Happening> RandomHistory::aboutPrinters(const Workbench& bench) {
    const QString bay = oneOf(QStringList{text("bay-1"), text("bay-2")});
    switch (below(7)) {
    case 0: return act::PrintEnded{bay, PrintOutcome::Good, true, {}, {}, {}};
    case 1: return act::PrintEnded{bay, PrintOutcome::Failed, below(2) == 0, cm3(3), {}, text("came off")};
    case 2: return act::PrintEnded{bay, PrintOutcome::Stopped, false, {}, {}, {}};
    case 3: return act::PartRemoved{bay};
    case 4: return act::DowntimeBegun{bay, text("belt"), bench.now() + Minutes(60)};
    case 5: return act::DowntimeEnded{bay};
    default: {
        const QList<Job> jobs = bench.shop().jobs();
        return jobs.isEmpty() ? std::nullopt : std::optional<Happening>(act::PrintStarted{bay, oneOf(jobs).id, text("fine"), Minutes(90)});
    }
    }
}

std::optional<Happening> RandomHistory::aboutPlans(const Workbench& bench) {
    switch (below(4)) {
    case 0: {
        Plan plan{text("cost"), {{text("bay-1"), {}}}, {}};
        for (const Job& j : bench.shop().jobs().mid(0, 3))
            plan.printers[0].jobs.append({j.id, text("fine"), false, bench.now(), bench.now(), bench.now() + Minutes(90)});
        return act::PlanPublished{plan};
    }
    case 1: return act::AbsenceEntered{{fresh("A"), 1, bench.now(), bench.now() + Minutes(60), text("course")}};
    case 2: return act::DowntimePlanned{{fresh("D"), text("bay-2"), bench.now(), bench.now() + Minutes(60), text("belt")}};
    default: {
        const QStringList ids = bench.shop().absences().keys();
        return ids.isEmpty() ? std::nullopt : std::optional<Happening>(act::AbsenceWithdrawn{oneOf(ids)});
    }
    }
}

std::optional<Happening> RandomHistory::work(const Workbench& bench, const SessionState& session) {
    if (session.phase == SessionPhase::Paused) {
        const PrinterNow& p = *bench.shop().printer(session.printer);
        QMap<QString, QString> mounted;
        if (!p.part.nozzle.isEmpty())
            mounted.insert(text("part"), p.part.nozzle);
        if (!p.support.nozzle.isEmpty())
            mounted.insert(text("support"), p.support.nozzle);
        return act::SessionResumed{session.number, mounted};
    }
    switch (below(90)) {
    case 0: return act::SessionPaused{session.number, text("lunch"), below(2) == 0};
    case 1:
    case 6:
    case 7: return act::SessionStopped{session.number, text("end of shift")};
    case 2: return session.confirmedOrder.isEmpty() ? std::nullopt : std::optional<Happening>(act::TakenBack{session.number, session.confirmedOrder.last(), text("wrong row")});
    case 3: return act::ProblemReported{session.number, {}, text("thread binds"), false};
    case 4: return act::TemperatureRead{session.number, Sensor::Chamber, celsius(40 + below(50)), text("ct-1")};
    case 5: return act::StepSkipped{session.number, text("look"), {text("skip"), text("no lamp"), text("JK")}};
    default: break;
    }
    for (const PlannedStep& p : session.changeover.steps)
        if (!session.settled(p.step.id)) {
            if (!p.step.handsOn() && session.progress(p.step.id).state == StepState::Pending)
                return act::StepStarted{session.number, p.step.id};
            return rightly(bench, session, p);
        }
    return act::SessionFinished{session.number, text("released"), text("all well")};
}

std::optional<Happening> RandomHistory::afterwards(const Workbench& bench) {
    const qint64 last = bench.shop().lastSession();
    if (last == 0)
        return {};
    const qint64 number = 1 + below(static_cast<int>(last));
    const SessionState* s = bench.shop().session(number);
    if (!s || s->isOpen())
        return {};
    if (below(2))
        return act::RecordIssued{number, s->nextRevision(), QString(64, QLatin1Char('b'))};
    return act::Corrected{number, s->firstEvent, text("note"), text("was"), text("is"), text("slip")};
}

std::optional<Happening> RandomHistory::aSession(const Workbench& bench) {
    for (const SessionState& s : bench.shop().sessions())
        if (s.isOpen() && below(8))
            return work(bench, s);
    const PrinterNow& p = *bench.shop().printer(oneOf(QStringList{text("bay-1"), text("bay-2")}));
    if (p.activity == Activity::Printing) // nobody waits for hours
        return act::PrintEnded{p.id, PrintOutcome::Good, true, {}, {}, {}};
    const QList<Job> jobs = bench.shop().jobs();
    if (jobs.isEmpty())
        return {};
    const Job j = oneOf(jobs);
    const Transition t = judgeTransition(bench.catalogue(), bench.shop().stock(), requestFor(p, j, j.variants.first()), bench.now());
    const auto c = planChangeover(bench.catalogue(), bench.shop().stock(), t, bench.now());
    if (!c)
        return {};
    return act::SessionStarted{bench.shop().nextSession(), p.id, *c, {}, false};
}

std::optional<Happening> RandomHistory::propose(const Workbench& bench) {
    switch (below(16)) {
    case 0:
    case 1: return aboutSpools(bench);
    case 2: return aboutNozzles(bench);
    case 3: return aboutJobs(bench);
    case 4:
    case 5: return aboutPrinters(bench);
    case 6: return aboutPlans(bench);
    case 7: return afterwards(bench);
    default: return aSession(bench);
    }
}

bool RandomHistory::step(Workbench& bench, ManualClock& clock) {
    const auto h = propose(bench);
    if (!h)
        return false;
    clock.advance(Seconds(10 + below(45))); // a reading must not be older than a minute
    if (below(60) == 0)
        clock.setWall(clock.now() + Minutes(below(3) - 1));
    bench.watchClock();
    return bench.perform(*h, below(2) ? text("ML") : text("JK")).has_value();
}

void RandomHistory::steps(Workbench& bench, ManualClock& clock, int count) {
    for (int done = 0, tried = 0; done < count && tried < 20 * count; ++tried)
        done += step(bench, clock) ? 1 : 0;
}

} // namespace interlude::tests
