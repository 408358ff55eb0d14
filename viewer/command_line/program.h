#pragma once

namespace footing {

/// The whole program: reads the words given to it, runs one verb, returns the exit code of the contract
/// (0 done, 2 command line, 3 bad input, 4 device, 5 disk).
int run_program(int argc, char** argv);

}  // namespace footing
