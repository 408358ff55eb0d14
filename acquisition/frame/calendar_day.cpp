#include "acquisition/frame/calendar_day.h"

#include <charconv>
#include <chrono>
#include <cstddef>

namespace footing {

std::optional<std::int64_t> day_of_date(std::string_view date) {
    if (date.size() != 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    const auto part = [&](std::size_t from, std::size_t length, auto& number) {
        const char* const end = date.data() + from + length;
        return std::from_chars(date.data() + from, end, number).ptr == end;
    };
    if (!part(0, 4, year) || !part(5, 2, month) || !part(8, 2, day)) return std::nullopt;
    const std::chrono::year_month_day when{std::chrono::year(year), std::chrono::month(month),
                                           std::chrono::day(day)};
    if (!when.ok()) return std::nullopt;
    return std::chrono::sys_days(when).time_since_epoch().count();
}

}  // namespace footing
