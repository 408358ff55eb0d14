#pragma once

#include "acquisition/frame/result.h"

namespace footing {

class Arguments;

/// Adds --sure PERCENT to a verb: how probable a verdict must be (docs/formulas.md, G8).
void add_sure_option(Arguments& verb, double& percent);

/// Per cent as a probability. Fails with command_line unless it is above 50 and at most 99.9.
[[nodiscard]] Result<double> parse_sure(double percent);

}  // namespace footing
