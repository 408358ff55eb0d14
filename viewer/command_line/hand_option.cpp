#include "viewer/command_line/hand_option.h"

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"

namespace footing {

Argument* add_hand_option(Arguments& verb, std::string& hand, const std::string& help) {
    return verb.add_option("--hand", hand, help)->check(one_of({"right", "left"}));
}

std::optional<Hand> parse_hand(const std::string& hand) {
    if (hand.empty()) return std::nullopt;
    return hand == "left" ? Hand::left : Hand::right;
}

}  // namespace footing
