#include "views/changeover/key_pace.h"

namespace interlude {

void KeyPace::key(Milliseconds at) {
    if (m_last && at - *m_last > scannerGap) m_byHand = true;
    m_last = at;
    ++m_keys;
}

} // namespace interlude
