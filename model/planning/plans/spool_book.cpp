#include "model/planning/plans/spool_book.h"

#include "model/physics/feedstock.h"
#include "model/stock/expiry.h"

#include <algorithm>

namespace interlude::planning {

namespace {

/// What a running print still takes from the spool loaded there: as its variant says, less what spools replaced since gave. The
/// shop notes it when the print has ended.
Mass stillTaken(const Shop& shop, const PrinterNow& p, Role role, const Material& m) {
    const Job* job = shop.job(p.job);
    const Variant* v = job && p.activity == Activity::Printing ? job->variantNamed(p.variant) : nullptr;
    if (!v || !p.printStarted) return {};
    Mass need = massOf(role == Role::Part ? v->partVolume : v->supportVolume, m.densityGPerCm3);
    for (const Spool& s : shop.stock().spools)
        for (const StockEntry& e : s.entries)
            if (s.material == m.id && e.reference == p.job && e.at >= *p.printStarted) need = need + e.change;
    return std::max(need, Mass());
}

/// What may be used together where one lot is wanted: spools of one lot; a spool without a lot's name only by itself.
QString batchOf(const Spool& s) { return s.lot.isEmpty() ? QStringLiteral("spool ") + s.id : QStringLiteral("lot ") + s.lot; }

} // namespace

SpoolBook::SpoolBook(const Shop& shop, Instant now) : m_shop(shop), m_now(now) {
    holdLoaded();
    holdForSessions();
}

void SpoolBook::holdLoaded() {
    for (const PrinterNow& p : m_shop.printers())
        for (const Role role : {Role::Part, Role::Support}) {
            const SpoolId id = at(p, role).spool;
            if (id.isEmpty()) continue;
            const bool prints = p.activity == Activity::Printing && p.printExpectedEnd;
            m_stays.append({id, p.id, role, m_now, prints ? std::max(m_now, *p.printExpectedEnd) : m_now, {}});
        }
}

/// What an open session is about to load is as good as loaded, what it unloads as good as free.
void SpoolBook::holdForSessions() {
    for (const SessionState& s : m_shop.sessions()) {
        if (!s.isOpen()) continue;
        const Transition& t = s.changeover.transition;
        for (const SpoolChange& c : t.spools) {
            for (Stay& stay : m_stays)
                if (stay.printer == s.printer && stay.role == c.role && stay.spool != c.in && c.unload) stay.unloaded = m_now;
            if (!c.in.isEmpty())
                m_stays.append({c.in, s.printer, c.role, m_now, m_now + s.changeover.internal + t.request.print, {}});
        }
    }
}

QList<SpoolBook::Piece>& SpoolBook::piecesOf(const Material& m) {
    const auto known = m_pieces.find(m.id);
    if (known != m_pieces.end()) return *known;
    QList<Piece> pieces;
    for (const Spool& s : m_shop.stock().spools)
        if (s.material == m.id && s.where != SpoolWhere::Retired) pieces.append({&s, s.left.value_or(Mass())});
    for (const PrinterNow& p : m_shop.printers())
        for (const Role role : {Role::Part, Role::Support})
            for (Piece& piece : pieces)
                if (piece.spool->id == at(p, role).spool) piece.left = std::max(piece.left - stillTaken(m_shop, p, role, m), Mass());
    return *m_pieces.insert(m.id, pieces);
}

bool SpoolBook::isHere(const SpoolId& spool, const SpoolClaim& claim) const {
    return std::any_of(m_stays.begin(), m_stays.end(), [&](const Stay& s) {
        return s.spool == spool && s.printer == claim.printer && s.role == claim.role && !s.unloaded;
    });
}

SpoolBook::Candidate SpoolBook::candidate(Piece& piece, const SpoolClaim& claim) const {
    const DryState dry = dryState(*piece.spool, *claim.material, m_now);
    Candidate c{&piece, Lies::Free, dry == DryState::Overdue || dry == DryState::Unknown, nullptr};
    const Spool& spool = *piece.spool;
    if (isHere(spool.id, claim)) c.lies = Lies::Here;
    else if (spool.where == SpoolWhere::Loaded && spool.place != claim.printer) c.lies = Lies::ComesFree;
    for (const Stay& s : m_stays) {
        const bool same = s.printer == claim.printer && s.role == claim.role;
        if (s.spool != spool.id || same || s.from >= claim.to || (s.unloaded && *s.unloaded <= claim.from)) continue;
        const Lies lies = s.needed > claim.from ? Lies::NeededElsewhere : Lies::LoadedElsewhere;
        // What is needed at both at once is worse than what is only in the way; of those the one that is needed longest counts.
        const bool worse = !c.other || lies > c.lies || (lies == c.lies && s.needed > c.other->needed);
        if (!worse) continue;
        c.lies = lies;
        c.other = &s;
    }
    return c;
}

QList<SpoolBook::Candidate> SpoolBook::candidates(const SpoolClaim& claim) {
    QList<Candidate> out;
    for (Piece& p : piecesOf(*claim.material))
        if (p.left > Mass()) out.append(candidate(p, claim));
    const auto rank = [&](const Candidate& c) {
        const Spool& s = *c.piece->spool;
        const auto key = [](const std::optional<Instant>& t) { return toMs(t.value_or(Instant::max())); };
        return std::tuple(c.lies, c.wet, expired(s, m_now, m_shop.catalogue().fleet.zone), key(s.expires), key(s.opened), s.order, s.id);
    };
    std::sort(out.begin(), out.end(), [&](const Candidate& a, const Candidate& b) { return rank(a) < rank(b); });
    return out;
}

namespace {

/// The spools that serve together, in order: one alone if one suffices, else all (where one lot is wanted: of one lot, the first
/// that has enough). Empty: they do not suffice.
template <typename Candidates> Candidates sufficing(const Candidates& all, const SpoolClaim& claim) {
    for (const auto& c : all)
        if (c.piece->left >= claim.need) return {c};
    QHash<QString, Mass> sums;
    const auto batch = [&](const auto& c) { return claim.job->sameLot ? batchOf(*c.piece->spool) : QString(); };
    for (const auto& c : all) sums[batch(c)] = sums[batch(c)] + c.piece->left;
    for (const auto& first : all) {
        if (sums[batch(first)] < claim.need) continue;
        Candidates out;
        for (const auto& c : all)
            if (batch(c) == batch(first)) out.append(c);
        return out;
    }
    return {};
}

/// Where nothing suffices: all there is, or the lot that has most.
template <typename Candidates> Candidates asMuchAsThereIs(const Candidates& all, bool sameLot) {
    if (!sameLot) return all;
    QHash<QString, Mass> sums;
    for (const auto& c : all) sums[batchOf(*c.piece->spool)] = sums[batchOf(*c.piece->spool)] + c.piece->left;
    QString most;
    for (const auto& c : all)
        if (const QString b = batchOf(*c.piece->spool); most.isEmpty() || sums[b] > sums[most]) most = b;
    Candidates out;
    for (const auto& c : all)
        if (batchOf(*c.piece->spool) == most) out.append(c);
    return out;
}

} // namespace

QString SpoolBook::wordsFor(const Candidate& c) const {
    const QString where = m_shop.catalogue().printerName(c.other->printer);
    if (c.lies == Lies::LoadedElsewhere) return QStringLiteral("spool %1 is loaded at %2").arg(c.piece->spool->id, where);
    return QStringLiteral("spool %1 is also needed at %2 until %3")
        .arg(c.piece->spool->id, where,
             toZone(c.other->needed, m_shop.catalogue().fleet.zone).toString(QStringLiteral("ddd HH:mm")));
}

SpoolsTaken SpoolBook::take(const SpoolClaim& claim) {
    SpoolsTaken out;
    out.missing = claim.need;
    const QList<Piece>& pieces = piecesOf(*claim.material);
    const bool unweighed = std::any_of(pieces.begin(), pieces.end(), [](const Piece& p) { return !p.spool->left; });
    // The one that is loaded stays although nobody knows what is left of it: a changeover leaves it there, too.
    if (std::any_of(pieces.begin(), pieces.end(), [&](const Piece& p) { return !p.spool->left && isHere(p.spool->id, claim); })) {
        out.unknown = claim.need > Mass();
        settle(claim, {});
        return out;
    }
    const QList<Candidate> all = candidates(claim);
    const auto upTo = [&](Lies limit, bool withWet) {
        QList<Candidate> some;
        for (const Candidate& c : all)
            if (c.lies <= limit && (withWet || !c.wet)) some.append(c);
        return some;
    };
    QList<Candidate> chosen;
    // The one that is loaded stays, whatever state it is in: so does a changeover take it.
    for (const auto& [limit, withWet] : {std::pair(Lies::Here, true), std::pair(Lies::Free, false), std::pair(Lies::Free, true),
                                         std::pair(Lies::ComesFree, true), std::pair(Lies::LoadedElsewhere, true), std::pair(Lies::NeededElsewhere, true)}) {
        if (!chosen.isEmpty()) break;
        chosen = sufficing(upTo(limit, withWet), claim);
    }
    Mass sum;
    for (const Candidate& c : all) sum = sum + c.piece->left;
    if (chosen.isEmpty()) chosen = asMuchAsThereIs(all, claim.job->sameLot);
    for (const Candidate& c : chosen) {
        const Mass taken = std::min(out.missing, c.piece->left);
        if (taken <= Mass()) break;
        out.shares.append({c.piece->spool->id, taken});
        out.missing = out.missing - taken;
        if (c.wet) out.wet = out.wet + taken;
        if (c.other) out.elsewhere.append(wordsFor(c));
        c.piece->left = c.piece->left - taken;
    }
    out.unknown = out.missing > Mass() && unweighed;
    out.torn = out.missing > Mass() && sum >= claim.need;
    settle(claim, out.shares);
    return out;
}

/// What was there and serves no longer comes out, what serves is there from then on.
void SpoolBook::settle(const SpoolClaim& claim, const QList<SpoolsTaken::Share>& shares) {
    if (claim.printer.isEmpty()) return;
    const auto serves = [&](const SpoolId& id) {
        return std::any_of(shares.begin(), shares.end(), [&](const SpoolsTaken::Share& s) { return s.spool == id; });
    };
    QSet<SpoolId> there;
    for (Stay& s : m_stays) {
        if (s.printer != claim.printer || s.role != claim.role || s.unloaded) continue;
        const Spool* spool = m_shop.spool(s.spool);
        const bool stays = shares.isEmpty() && spool && spool->material == claim.material->id;
        if (!stays && !serves(s.spool)) {
            s.unloaded = claim.from;
            continue;
        }
        s.needed = std::max(s.needed, claim.to);
        there.insert(s.spool);
    }
    for (const SpoolsTaken::Share& s : shares)
        if (!there.contains(s.spool)) m_stays.append({s.spool, claim.printer, claim.role, claim.from, claim.to, {}});
}

} // namespace interlude::planning
