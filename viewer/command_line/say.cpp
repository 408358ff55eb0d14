#include "viewer/command_line/say.h"

#include <cstdio>

namespace footing {

void complain(const Problem& problem, VerbOutcome& outcome) {
    std::fprintf(stderr, "footing: %s\n", sentence(problem).c_str());
    outcome.exit_code = exit_code(problem.kind);
}

}  // namespace footing
