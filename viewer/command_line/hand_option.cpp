#include "viewer/command_line/hand_option.h"

#include <CLI/CLI.hpp>

namespace footing {

void add_hand_option(CLI::App& verb, std::string& hand, const std::string& help) {
    verb.add_option("--hand", hand, help)->check(CLI::IsMember({"right", "left"}));
}

std::optional<Hand> parse_hand(const std::string& hand) {
    if (hand.empty()) return std::nullopt;
    return hand == "left" ? Hand::left : Hand::right;
}

}  // namespace footing
