#pragma once
// Which spool serves which job while a plan's feedstock is set aside: the grams that are left of each, and where each lies when.
// Claims come in the order in which the prints start.

#include "model/shop/shop.h"

namespace interlude::planning {

/// What one job takes at one position of its printer. Without a printer nobody knows where the job goes.
struct SpoolClaim {
    const Job* job = nullptr;
    const Material* material = nullptr;
    PrinterId printer;
    Role role = Role::Part;
    Mass need;        ///< with purge and prime
    Instant from, to; ///< from the begin of the work on the printer to the end of the print
};

struct SpoolsTaken {
    struct Share {
        SpoolId spool;
        Mass mass;
    };
    QList<Share> shares;    ///< in the order in which they are loaded
    Mass missing;           ///< that no spool of known weight gives
    Mass wet;               ///< of the shares: overdue for drying, or of unknown drying
    bool unknown = false;   ///< a spool of unknown weight may hold what is missing
    bool torn = false;      ///< the shop holds enough, but no single lot does and the job wants one
    QStringList elsewhere;  ///< in plain words: shares that another printer has, too
};

/// Borrows the shop, which stays as it is meanwhile.
class SpoolBook {
public:
    SpoolBook(const Shop& shop, Instant now);
    /// The spool that the printer has loaded then, if it suffices; else those on a shelf as a changeover would take them (dry
    /// ones first, then first expired and first opened, one that suffices before several); one that another printer has loaded
    /// now or then, or takes in overlapping hours, only where nothing else is there.
    SpoolsTaken take(const SpoolClaim& claim);

private:
    struct Piece {
        const Spool* spool = nullptr;
        Mass left;
    };
    /// A spool at a printer: needed there until `needed`, in the way until it is unloaded.
    struct Stay {
        SpoolId spool;
        PrinterId printer;
        Role role = Role::Part;
        Instant from, needed;
        std::optional<Instant> unloaded;
    };
    /// `ComesFree`: loaded at another printer now, and unloaded there before it is wanted here, if all goes as planned.
    enum class Lies { Here, Free, ComesFree, LoadedElsewhere, NeededElsewhere };
    struct Candidate {
        Piece* piece = nullptr;
        Lies lies = Lies::Free;
        bool wet = false;
        const Stay* other = nullptr; ///< where it is wanted, too
    };

    QList<Piece>& piecesOf(const Material& m);
    bool isHere(const SpoolId& spool, const SpoolClaim& claim) const;
    Candidate candidate(Piece& piece, const SpoolClaim& claim) const;
    QList<Candidate> candidates(const SpoolClaim& claim);
    void settle(const SpoolClaim& claim, const QList<SpoolsTaken::Share>& shares);
    void holdLoaded();
    void holdForSessions();
    QString wordsFor(const Candidate& c) const;

    const Shop& m_shop;
    Instant m_now;
    QHash<MaterialId, QList<Piece>> m_pieces;
    QList<Stay> m_stays;
};

} // namespace interlude::planning
