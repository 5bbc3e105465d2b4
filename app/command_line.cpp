#include "app/command_line.h"

namespace interlude::app {

int run(int, char**) {
    return 3;
}

} // namespace interlude::app
