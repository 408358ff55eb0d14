#include "viewer/calibration/calendar.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>

namespace footing {

std::string months_later(const std::string& date, int months) {
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    if (date.size() != 10 || date[4] != '-' || date[7] != '-') return {};
    std::from_chars(date.data(), date.data() + 4, year);
    std::from_chars(date.data() + 5, date.data() + 7, month);
    std::from_chars(date.data() + 8, date.data() + 10, day);
    std::chrono::year_month_day then{std::chrono::year(year), std::chrono::month(month),
                                     std::chrono::day(day)};
    if (!then.ok()) return {};
    then += std::chrono::months(months);
    if (!then.ok()) then = then.year() / then.month() / std::chrono::last;
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(then.year()),
                       static_cast<unsigned>(then.month()), static_cast<unsigned>(then.day()));
}

}  // namespace footing
