#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "viewer/book/book_records.h"

namespace footing {

/// An absent value as null.
template <typename T>
[[nodiscard]] nlohmann::ordered_json or_null(const std::optional<T>& value) {
    return value ? nlohmann::ordered_json(*value) : nlohmann::ordered_json();
}

/// An empty text as null.
[[nodiscard]] nlohmann::ordered_json text_or_null(const std::string& text);

/// A name for a line on a terminal: harmless, and cut when it is very long.
[[nodiscard]] std::string shown(const std::string& name);
/// The same for a whole sentence that has a name in it.
[[nodiscard]] std::string shown_long(const std::string& words);

/// What went, in words and as JSON.
[[nodiscard]] std::string removed_words(const Removed& removed);
[[nodiscard]] nlohmann::ordered_json removed_json(const Removed& removed);

[[nodiscard]] nlohmann::ordered_json json_of(const LessonLine& line);
[[nodiscard]] nlohmann::ordered_json json_of(const BookSwing& swing, const std::string& wedge_name);

}  // namespace footing
