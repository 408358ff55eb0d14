#include <csignal>

#include "viewer/command_line/program.h"

int main(int argc, char** argv) {
    // A file that may not grow any further is an error to tell, not the end of the program.
    std::signal(SIGXFSZ, SIG_IGN);
    return footing::run_program(argc, argv);
}
