#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "analysis/distance/carry.h"
#include "viewer/book/book_records.h"

namespace footing {

/// "83", "83yd", "75.5 m" as metres; a bare number is in `unit`. Finite, from 0 to 500 m. Fails with
/// command_line.
[[nodiscard]] Result<double> parse_distance(const std::string& text, DistanceUnit unit,
                                            const std::string& option);

/// "3 right", "4yd left", "-2" (left) as metres to the right. Fails with command_line.
[[nodiscard]] Result<double> parse_side(const std::string& text, DistanceUnit unit);

/// "3,5-9" as numbers in rising order. Fails with command_line.
[[nodiscard]] Result<std::vector<std::int64_t>> parse_numbers(const std::string& text,
                                                              const std::string& option);

/// "2026-05-14" as it is, empty as today (local). Fails with command_line.
[[nodiscard]] Result<std::string> parse_date(const std::string& text, const std::string& option);

/// Puts a note that was given, tidied, over the one that is there; an empty one empties it. Fails with
/// command_line when it is longer than 20,000 bytes.
[[nodiscard]] Outcome take_note(const std::optional<std::string>& given, const std::string& option,
                                std::string& note);

/// Local.
[[nodiscard]] std::string date_of_today();

}  // namespace footing
