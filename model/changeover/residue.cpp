#include "model/changeover/judging.h"
#include "model/changeover/plain_words.h"

#include <algorithm>

namespace interlude {

namespace {

CleanOutQuestion question(const Judging& j, ResiduePlace place) {
    const bool chamber = place == ResiduePlace::Chamber;
    CleanOutQuestion q;
    q.place = place;
    q.rule = j.catalogue.fleet.cleanOutRule;
    q.marginK = j.catalogue.fleet.cleanOutMarginK;
    q.lastPart = j.before().lastPart;
    q.lastSupport = j.before().lastSupport;
    q.nextPart = j.part->id;
    q.nextSupport = j.support ? j.support->id : MaterialId();
    // Both heads wipe at the same place, so the hotter of the two decides there.
    q.next =
        chamber ? j.transition.chamberAfter : std::max(j.part->nozzle, j.support ? j.support->nozzle : j.part->nozzle);
    for (const ResidueItem& item : chamber ? j.before().residue : j.before().wiper) {
        const Material* m = j.catalogue.material(item.material);
        if (m)
            q.residue.append(
                {m->id, chamber ? m->softening : m->meltMax, chamber ? item.chamberSeen : item.nozzleSeen});
        else // a grade that this catalogue no longer knows is as unknown as one that nobody named
            q.residue.append({MaterialId(), {}, {}});
    }
    return q;
}

QString ruleName(CleanOutRule rule) {
    return rule == CleanOutRule::Strict ? QStringLiteral("Rule: strict. ") : QStringLiteral("Rule: going up. ");
}

void noticeOwnChamber(const Judging& j) {
    const auto margin = std::llround(j.catalogue.fleet.cleanOutMarginK * 1000.0);
    for (const Material* m : {j.part, j.support})
        if (m && j.transition.chamberAfter.milliCelsius() >= m->softening.milliCelsius() - margin)
            j.say(Severity::Notice, QStringLiteral("own-chamber"),
                  QStringLiteral("Residue of %1 (softens at %2) is soft in this job's own chamber of %3.")
                      .arg(m->id, plainWords(m->softening), plainWords(j.transition.chamberAfter)),
                  QStringLiteral("inspect wiper and waste bin at each job"), m->id);
}

} // namespace

void judgeResidue(const Judging& j) {
    Transition& t = j.transition;
    t.chamber = judgeCleanOut(question(j, ResiduePlace::Chamber));
    t.wiper = judgeCleanOut(question(j, ResiduePlace::WiperAndBin));
    const bool mandatory = t.chamber.level == CleanOut::Mandatory;
    t.cleanOut = mandatory || (t.chamber.level == CleanOut::Advised && j.request().takeAdvisedCleanOut);
    t.clearWiper = t.wiper.level == CleanOut::Mandatory;
    const Severity severity = mandatory                              ? Severity::Mandatory
                              : t.chamber.level == CleanOut::Advised ? Severity::Advice
                                                                     : Severity::Notice;
    j.say(severity, QStringLiteral("clean-out"), ruleName(j.catalogue.fleet.cleanOutRule) + t.chamber.reason,
          mandatory ? QStringLiteral("clean the chamber out before it is heated") : QString(), j.before().id);
    if (t.wiper.level == CleanOut::Mandatory)
        j.say(Severity::Mandatory, QStringLiteral("wiper-and-bin"), t.wiper.reason,
              QStringLiteral("clear wiper and waste bin before the head is heated"), j.before().id);
    noticeOwnChamber(j);
}

} // namespace interlude
