#pragma once

#include "acquisition/frame/problem.h"
#include "viewer/command_line/verbs.h"

namespace footing {

/// Writes the problem to standard error as one sentence, and sets the exit code that goes with it.
void complain(const Problem& problem, VerbOutcome& outcome);

}  // namespace footing
