#pragma once

#include <optional>
#include <string>

#include "acquisition/frame/units.h"

namespace footing {

class Argument;
class Arguments;

/// Adds --hand right|left to a verb; refuses any other word. Gives the option, for what excludes it.
Argument* add_hand_option(Arguments& verb, std::string& hand, const std::string& help);

/// The hand named; absent for an empty word.
[[nodiscard]] std::optional<Hand> parse_hand(const std::string& hand);

}  // namespace footing
