#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "viewer/book/book_records.h"

/// What is in the lesson book, as JSON for other programs: metres, seconds, fractions; null where not known.
namespace footing {

/// An absent value as null.
template <typename T>
[[nodiscard]] nlohmann::ordered_json or_null(const std::optional<T>& value) {
    return value ? nlohmann::ordered_json(*value) : nlohmann::ordered_json();
}

/// An empty text as null.
[[nodiscard]] nlohmann::ordered_json text_or_null(const std::string& text);

[[nodiscard]] nlohmann::ordered_json removed_json(const Removed& removed);
[[nodiscard]] nlohmann::ordered_json json_of(const LessonLine& line);
[[nodiscard]] nlohmann::ordered_json json_of(const BookSwing& swing, const std::string& wedge_name);

}  // namespace footing
