#pragma once

#include <optional>
#include <string>

#include "acquisition/frame/units.h"

namespace footing {

class Arguments;

/// Adds --hand right|left to a verb; refuses any other word.
void add_hand_option(Arguments& verb, std::string& hand, const std::string& help);

/// The hand named; absent for an empty word.
[[nodiscard]] std::optional<Hand> parse_hand(const std::string& hand);

}  // namespace footing
