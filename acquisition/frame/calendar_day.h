#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace footing {

/// Days since 1970-01-01 of an ISO 8601 date as in 2026-05-14; nothing when it is no date of the calendar.
[[nodiscard]] std::optional<std::int64_t> day_of_date(std::string_view date);

}  // namespace footing
