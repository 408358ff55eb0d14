#pragma once

#include <string>
#include <vector>

#include "tests/support/child_process.h"

namespace footing::test {

/// Runs the program with these words to its end, and keeps what it wrote.
inline ProgramOutput footing_says(std::vector<std::string> words) {
    words.insert(words.begin(), FOOTING_PROGRAM);
    return run_program(words);
}

}  // namespace footing::test
