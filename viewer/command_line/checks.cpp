#include "viewer/command_line/checks.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <string>

namespace footing {

CLI::Validator number_between(double low, double high) {
    const std::string range = fmt::format("from {} to {}", low, high);
    return CLI::Validator(
        [low, high, range](std::string& word) -> std::string {
            const char* const end = word.data() + word.size();
            double value = 0.0;
            const auto read = std::from_chars(word.data(), end, value);
            const bool sound = read.ec == std::errc() && read.ptr == end && std::isfinite(value);
            if (sound && low <= value && value <= high) return "";
            return fmt::format("\"{}\" is not a number {}", word, range);
        },
        range);
}

CLI::Validator file_name() {
    return CLI::Validator(
        [](std::string& word) -> std::string { return word.empty() ? "a file needs a name" : ""; }, "");
}

}  // namespace footing
