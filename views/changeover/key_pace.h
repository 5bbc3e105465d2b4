#pragma once
// Tells a scanner from fingers by the pace of the keys. A scanner in keyboard mode sends its characters a few
// milliseconds apart; nobody types a whole id that evenly fast (common practice, no source). Text that arrives without
// keys (pasted, dropped) was not scanned. Plain arithmetic on times passed in.

#include "model/clock/instant.h"

#include <optional>

namespace interlude {

class KeyPace {
public:
    /// Longest gap between two characters of one scan.
    static constexpr Milliseconds scannerGap{35};

    /// A character arrived; `at` is the running clock.
    void key(Milliseconds at);
    /// A character was deleted or the text changed without keys: whatever comes of it was made by hand.
    void edited() { m_byHand = true; }
    /// The field is empty again.
    void clear() { *this = KeyPace(); }
    /// Whether all `length` characters of the text came from a scanner.
    bool scanned(int length) const { return length > 1 && m_keys == length && !m_byHand; }

private:
    std::optional<Milliseconds> m_last;
    int m_keys = 0;
    bool m_byHand = false;
};

} // namespace interlude
