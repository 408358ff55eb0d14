#pragma once

#include <optional>
#include <string>

#include "acquisition/frame/units.h"

namespace CLI {
class App;
}

namespace footing {

/// Adds --hand right|left to a verb; CLI11 refuses any other word.
void add_hand_option(CLI::App& verb, std::string& hand, const std::string& help);

/// The hand named; absent for an empty word.
[[nodiscard]] std::optional<Hand> parse_hand(const std::string& hand);

}  // namespace footing
