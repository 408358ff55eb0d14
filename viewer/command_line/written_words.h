#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"

namespace footing {

/// "3,5-9" as numbers in rising order. Fails with command_line.
[[nodiscard]] Result<std::vector<std::int64_t>> parse_numbers(const std::string& text,
                                                              const std::string& option);

/// "2026-05-14" as it is, empty as today (local). Fails with command_line.
[[nodiscard]] Result<std::string> parse_date(const std::string& text, const std::string& option);

/// The same for the date of a lesson: refused ten years ahead, where the year must be wrong. A date that has
/// not come yet is told on standard error: this computer's clock may be what is wrong.
[[nodiscard]] Result<std::string> parse_lesson_date(const std::string& text, const std::string& option);

/// Puts a note that was given, tidied, over the one that is there; an empty one empties it. Fails with
/// command_line when it is longer than 20,000 bytes.
[[nodiscard]] Outcome take_note(const std::optional<std::string>& given, const std::string& option,
                                std::string& note);

/// Local.
[[nodiscard]] std::string date_of_today();

}  // namespace footing
