#pragma once
// What every store does alike: make the next link of the chain, read a link back, and judge a chain link by link.

#include "model/ledger/store.h"

namespace interlude {

/// An event as it is stored.
struct Link {
    qint64 sequence = 0;
    QByteArray canonical;
    QByteArray hash;
};

/// Gives the event its sequence, format and hash after `lastSequence` and `lastHash`, and its canonical bytes. Refused
/// when it has no kind, happened later than it was recorded, or its payload cannot be stored.
Outcome<QByteArray> forge(Event& e, qint64 lastSequence, const QByteArray& lastHash);

/// The event in some canonical bytes; its hash is not set. Refused (`ledger-damaged`) when they are no JSON, not in
/// canonical form, of a format that this version does not know, or a member is missing, strange or of a wrong type.
Outcome<Event> eventOf(const QByteArray& canonical);

/// Walks along a chain from its genesis value.
class ChainCheck {
public:
    explicit ChainCheck(const QString& fleetId);
    /// What does not fit at the next link; empty when it fits.
    std::optional<Misfit> next(const Link& link);
    /// The sequence that the next link must have.
    qint64 expected() const { return m_last + 1; }

private:
    qint64 m_last = 0;
    QByteArray m_hash;
};

} // namespace interlude
