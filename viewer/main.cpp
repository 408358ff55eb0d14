#include "viewer/command_line/program.h"

int main(int argc, char** argv) { return footing::run_program(argc, argv); }
