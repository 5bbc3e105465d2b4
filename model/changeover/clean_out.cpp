#include "model/changeover/clean_out.h"

#include "model/changeover/plain_words.h"

#include <algorithm>

namespace interlude {

namespace {

const QString unknownWord = QStringLiteral("unknown");

QString named(const ResidueFigures& item) {
    return item.material.isEmpty() ? unknownWord : item.material;
}

QString pairName(const QString& part, const QString& support) {
    if (part.isEmpty())
        return QStringLiteral("nothing");
    return support.isEmpty() ? part : QStringLiteral("%1 with %2").arg(part, support);
}

/// The temperature from which this residue is too soft (or decomposes), in milli-degrees.
qint64 threshold(const ResidueFigures& item, const CleanOutQuestion& q) {
    return item.limit.milliCelsius() - std::llround(q.marginK * 1000.0);
}

bool demandsCleanOut(const ResidueFigures& item, const CleanOutQuestion& q) {
    if (item.material.isEmpty())
        return true;
    if (q.next.milliCelsius() < threshold(item, q))
        return false;
    return q.rule == CleanOutRule::Strict || !item.seen || q.next > *item.seen;
}

QString whyDemanded(const ResidueFigures& item, const CleanOutQuestion& q) {
    const bool chamber = q.place == ResiduePlace::Chamber;
    if (item.material.isEmpty())
        return QStringLiteral("Residue of an unknown material is left %1: nobody can say how hot it may become.")
            .arg(chamber ? QStringLiteral("in the chamber") : QStringLiteral("in wiper and waste bin"));
    QString text = QStringLiteral("The next %1 of %2 is not below %3: residue of %4 %5 at %6, less a margin of %7 K")
                       .arg(chamber ? QStringLiteral("chamber set-point") : QStringLiteral("nozzle temperature"),
                            plainWords(q.next), plainWords(Temperature::fromMilliCelsius(threshold(item, q))),
                            item.material, chamber ? QStringLiteral("softens") : QStringLiteral("begins to decompose"),
                            plainWords(item.limit), plainNumber(q.marginK, 1));
    if (q.rule == CleanOutRule::Strict)
        return text + QStringLiteral(" (strict rule: what it has seen before does not count).");
    if (!item.seen)
        return text + QStringLiteral(", and it is not known ever to have been warm.");
    return text + QStringLiteral(", and it has not yet been hotter than %1.").arg(plainWords(*item.seen));
}

bool samePairOnly(const CleanOutQuestion& q) {
    if (q.lastPart != q.nextPart || q.lastSupport != q.nextSupport)
        return false;
    return std::all_of(q.residue.begin(), q.residue.end(), [&](const ResidueFigures& item) {
        return !item.material.isEmpty() && (item.material == q.lastPart || item.material == q.lastSupport);
    });
}

CleanOutVerdict mandatory(const CleanOutQuestion& q, const QList<ResidueFigures>& demanding) {
    CleanOutVerdict verdict{CleanOut::Mandatory, {}, {}};
    for (const ResidueFigures& item : demanding)
        if (!verdict.because.contains(named(item)))
            verdict.because.append(named(item));
    verdict.reason = whyDemanded(demanding.first(), q);
    if (verdict.because.size() > 1)
        verdict.reason += QStringLiteral(" The same holds for %1.").arg(plainList(verdict.because.mid(1)));
    return verdict;
}

CleanOutVerdict advised(const CleanOutQuestion& q) {
    CleanOutVerdict verdict{CleanOut::Advised, {}, {}};
    for (const ResidueFigures& item : q.residue)
        if (!verdict.because.contains(named(item)))
            verdict.because.append(named(item));
    const QString last = pairName(q.lastPart, q.lastSupport);
    const QString next = pairName(q.nextPart, q.nextSupport);
    verdict.reason =
        last == next ? QStringLiteral("Residue of %1 is left besides that of %2").arg(plainList(verdict.because), next)
                     : QStringLiteral("The materials change from %1 to %2, and residue of %3 is left")
                           .arg(last, next, plainList(verdict.because));
    verdict.reason += QStringLiteral("; at %1 none of it becomes softer than it has been or than the margin of %2 K "
                                     "allows.")
                          .arg(plainWords(q.next), plainNumber(q.marginK, 1));
    return verdict;
}

} // namespace

CleanOutVerdict judgeCleanOut(const CleanOutQuestion& q) {
    // A chamber that is clean needs no cleaning whatever comes next: a session stopped after its clean-out would
    // otherwise be told to do it again.
    if (q.residue.isEmpty())
        return {CleanOut::None, {}, QStringLiteral("Nothing is left since the last clean-out.")};
    if (samePairOnly(q))
        return {CleanOut::None,
                {},
                QStringLiteral("The same materials follow (%1) and nothing else is left.")
                    .arg(pairName(q.nextPart, q.nextSupport))};
    QList<ResidueFigures> demanding;
    for (const ResidueFigures& item : q.residue)
        if (demandsCleanOut(item, q))
            demanding.append(item);
    // What is unknown, then what softens first, is the reason that people should read first.
    std::stable_sort(demanding.begin(), demanding.end(), [](const ResidueFigures& a, const ResidueFigures& b) {
        if (a.material.isEmpty() != b.material.isEmpty())
            return a.material.isEmpty();
        return a.limit < b.limit;
    });
    return demanding.isEmpty() ? advised(q) : mandatory(q, demanding);
}

} // namespace interlude
