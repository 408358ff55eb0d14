#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// "70:80" (per cent) as a band. Fails with command_line when it is not two rising numbers from 0 to 100.
[[nodiscard]] Result<TargetBand> parse_band(const std::string& text);

}  // namespace footing
