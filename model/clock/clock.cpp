#include "model/clock/clock.h"

#include <time.h>

namespace interlude {

Instant SystemClock::now() const {
    return std::chrono::time_point_cast<Milliseconds>(std::chrono::system_clock::now());
}

Milliseconds SystemClock::running() const {
    timespec t{};
    clock_gettime(CLOCK_BOOTTIME, &t);
    return Milliseconds(static_cast<qint64>(t.tv_sec) * 1000 + t.tv_nsec / 1000000);
}

} // namespace interlude
