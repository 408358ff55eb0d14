#include "viewer/command_line/distance_option.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <set>

#include "acquisition/frame/clock.h"
#include "viewer/book/book_place.h"
#include "viewer/lesson/local_zone.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

constexpr double longest_m = 500.0;
constexpr std::int64_t most_numbers = 10000;

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
    if (!std::isfinite(metres) || metres < 0.0 || metres > longest_m) return no_distance(text, option);
    return metres;
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

Result<std::vector<std::int64_t>> parse_numbers(const std::string& text, const std::string& option) {
    const Problem wrong{ProblemKind::command_line, option, "\"" + text + "\" is not a list of numbers",
                        "write for example 3 or 3,5-9"};
    std::set<std::int64_t> numbers;
    const char* at = text.data();
    const char* const end = text.data() + text.size();
    while (true) {
        std::int64_t first = 0;
        auto read = std::from_chars(at, end, first);
        if (read.ec != std::errc()) return wrong;
        std::int64_t last = first;
        if (read.ptr != end && *read.ptr == '-') {
            read = std::from_chars(read.ptr + 1, end, last);
            if (read.ec != std::errc()) return wrong;
        }
        if (first < 1 || last < first || last > most_numbers) return wrong;
        for (; first <= last; ++first) numbers.insert(first);
        at = read.ptr;
        if (at == end) break;
        if (*at != ',') return wrong;
        ++at;
    }
    return std::vector<std::int64_t>(numbers.begin(), numbers.end());
}

std::string date_of_today() {
    return wall_time(SystemClock().utc_ns(), local_zone()).substr(0, 10);
}

Outcome take_note(const std::optional<std::string>& given, const std::string& option, std::string& note) {
    constexpr std::size_t most_bytes = 20000;
    if (!given) return Done{};
    const bool is_empty = given->find_first_not_of(" \t\r\n") == std::string::npos;
    if (is_empty) {
        note.clear();
        return Done{};
    }
    const auto tidy = tidy_text(*given, option, most_bytes);
    if (!tidy) return tidy.problem();
    note = tidy.value();
    return Done{};
}

Result<std::string> parse_date(const std::string& text, const std::string& option) {
    if (text.empty()) return date_of_today();
    if (day_of_date(text)) return text;
    return Problem{ProblemKind::command_line, option, "\"" + text + "\" is no date",
                   "write it as 2026-05-14"};
}

}  // namespace footing
