#pragma once

#include <string>

namespace footing {

/// ISO 8601 date, so many months later; the last day of a shorter month. Empty when `date` is no date.
[[nodiscard]] std::string months_later(const std::string& date, int months);

}  // namespace footing
