#include "viewer/command_line/written_words.h"

#include <charconv>
#include <set>

#include "acquisition/frame/clock.h"
#include "viewer/book/book_place.h"
#include "viewer/book/book_records.h"
#include "viewer/command_line/say.h"
#include "viewer/lesson/local_zone.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

constexpr std::int64_t most_numbers = 10000;

}  // namespace

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

Result<std::string> parse_lesson_date(const std::string& text, const std::string& option) {
    constexpr std::int64_t other_zones_days = 1;
    constexpr std::int64_t ten_years_days = 3653;
    auto date = parse_date(text, option);
    if (!date) return date;
    const std::string today = date_of_today();
    const std::int64_t ahead_days = day_of_date(date.value()).value_or(0) - day_of_date(today).value_or(0);
    if (ahead_days > ten_years_days) {
        return Problem{ProblemKind::command_line, option,
                       date.value() + " is more than ten years ahead (today is " + today + ")",
                       "see to the year"};
    }
    if (ahead_days > other_zones_days)
        tell_line("note: " + date.value() + " has not come yet (today is " + today + " by this computer)");
    return date;
}

}  // namespace footing
