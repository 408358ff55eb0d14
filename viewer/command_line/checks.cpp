#include "viewer/command_line/checks.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace footing {

Check number_between(double low, double high) {
    const std::string range = fmt::format("from {} to {}", low, high);
    return {range, [low, high, range](const std::string& word) -> std::string {
                const bool has_plus = word.size() > 1 && word[0] == '+' && word[1] != '-';
                const char* const begin = word.data() + (has_plus ? 1 : 0);
                const char* const end = word.data() + word.size();
                double value = 0.0;
                const auto read = std::from_chars(begin, end, value);
                const bool sound = read.ec == std::errc() && read.ptr == end && std::isfinite(value);
                if (sound && low <= value && value <= high) return "";
                return fmt::format("\"{}\" is not a number {}", word, range);
            }};
}

Check number_of_book() {
    return {"", [](const std::string& word) -> std::string {
                const char* const end = word.data() + word.size();
                std::int64_t number = 0;
                const auto read = std::from_chars(word.data(), end, number);
                if (read.ec == std::errc() && read.ptr == end && number >= 1) return "";
                return fmt::format("\"{}\" is not a whole number from 1 on", word);
            }};
}

Check one_of(const std::vector<std::string>& words) {
    const std::string list = fmt::format("{}", fmt::join(words, ", "));
    return {"one of " + list, [words, list](const std::string& word) -> std::string {
                if (std::find(words.begin(), words.end(), word) != words.end()) return "";
                return fmt::format("\"{}\" is none of {}", word, list);
            }};
}

}  // namespace footing
