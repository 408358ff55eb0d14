#include "viewer/command_line/sure_option.h"

#include <fmt/format.h>

#include "viewer/command_line/arguments.h"

namespace footing {

void add_sure_option(Arguments& verb, double& percent) {
    verb.add_option("--sure", percent,
                    "how certain a verdict must be, in per cent; else it is too close to call")
        ->capture_default_str();
}

Result<double> parse_sure(double percent) {
    if (percent > 50.0 && percent <= 99.9) return percent / 100.0;
    return Problem{ProblemKind::command_line, "--sure",
                   fmt::format("{:g} % is no certainty to judge with", percent),
                   "give more than 50 and at most 99.9, such as 95"};
}

}  // namespace footing
