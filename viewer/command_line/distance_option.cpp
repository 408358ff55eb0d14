#include "viewer/command_line/distance_option.h"

#include <charconv>
#include <cmath>

namespace footing {

namespace {

Problem no_distance(const std::string& text, const std::string& option) {
    return {ProblemKind::command_line, option, "\"" + text + "\" is not a distance from 0 to 500 m",
            "write for example 83yd or 75m"};
}

std::string without_blanks(const std::string& text) {
    std::string bare;
    for (const char letter : text) {
        if (letter != ' ') bare += letter;
    }
    return bare;
}

bool take_ending(std::string& text, const std::string& ending) {
    if (!text.ends_with(ending)) return false;
    text.resize(text.size() - ending.size());
    return true;
}

}  // namespace

Result<double> parse_distance(const std::string& text, DistanceUnit unit, const std::string& option) {
    const std::string bare = without_blanks(text);
    double value = 0.0;
    const auto [stopped, failure] = std::from_chars(bare.data(), bare.data() + bare.size(), value);
    const std::string ending(stopped, static_cast<std::size_t>(bare.data() + bare.size() - stopped));
    if (failure != std::errc()) return no_distance(text, option);
    if (ending == "yd") {
        unit = DistanceUnit::yards;
    } else if (ending == "m") {
        unit = DistanceUnit::metres;
    } else if (!ending.empty()) {
        return no_distance(text, option);
    }
    const double metres = value * metres_per(unit);
    if (!std::isfinite(metres) || metres < 0.0 || metres > longest_carry_m) return no_distance(text, option);
    return metres;
}

Result<double> parse_carry(const std::string& text, DistanceUnit unit, FarCarry far) {
    auto carry = parse_distance(text, unit, "--carry");
    if (carry && far == FarCarry::asked_about && carry.value() > wedge_reach_m) {
        return Problem{ProblemKind::command_line, "--carry", beyond_reach_words(carry.value(), unit),
                       "correct it, or say --far where it did fly so far"};
    }
    if (carry && carry.value() == 0.0) {
        return Problem{ProblemKind::command_line, "--carry", "a ball that did not fly has no carry",
                       "leave --carry out, and say how it was met, such as --strike thin"};
    }
    return carry;
}

Result<double> parse_side(const std::string& text, DistanceUnit unit) {
    std::string bare = without_blanks(text);
    double sign = 1.0;
    if (take_ending(bare, "left")) {
        sign = -1.0;
    } else if (!take_ending(bare, "right") && !bare.empty() && bare.front() == '-') {
        sign = -1.0;
        bare.erase(0, 1);
    }
    const auto metres = parse_distance(bare, unit, "--side");
    if (metres) return sign * metres.value();
    return Problem{ProblemKind::command_line, "--side", "\"" + text + "\" is not a distance to a side",
                   "write for example \"3yd left\" or \"2m right\""};
}

}  // namespace footing
