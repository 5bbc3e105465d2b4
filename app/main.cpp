#include "app/command_line.h"

int main(int argc, char** argv) {
    return interlude::app::run(argc, argv);
}
