#pragma once

#include <nlohmann/json_fwd.hpp>

#include "analysis/swing/swing.h"

namespace footing {

/// The teaching numbers of one swing, added to its object in `analyse --json` under names of their own
/// (docs/formulas.md, F34 to F42). What is not known is absent.
void add_numbers(nlohmann::ordered_json& swing_object, const Swing& swing);

}  // namespace footing
