#pragma once
// How much may have come since the last snapshot before a new one is worth its while, in events.

#include <QtGlobal>

namespace interlude {

/// At the end of the program, when nobody waits.
inline constexpr qint64 fewEvents = 50;
/// In between; folding so many costs less than a person notices.
inline constexpr qint64 manyEvents = 500;
/// While a long ledger is read: what is over is put away each time, so that memory stays small.
inline constexpr qint64 atATime = 4000;

} // namespace interlude
