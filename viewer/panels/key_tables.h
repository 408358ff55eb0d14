#pragma once

#include <string>
#include <vector>

#include "viewer/panels/keys.h"

namespace footing {

// Lines of keys from which those of a screen are put together (keys.h).

[[nodiscard]] inline KeyPress typed(char32_t character) {
    return {.character = character};
}
[[nodiscard]] inline KeyPress named(NamedKey key, Modifier modifier = Modifier::none) {
    return {.key = key, .modifier = modifier};
}
[[nodiscard]] inline KeyPress with_control(char32_t letter) {
    return {.character = letter, .modifier = Modifier::control};
}
inline void append(std::vector<KeyLine>& lines, std::vector<KeyLine> more) {
    for (KeyLine& line : more) lines.push_back(std::move(line));
}
/// Up and down, page by page, to the first and the last, of a list whose row is moved by `Move`.
template <typename Group, typename Move>
[[nodiscard]] std::vector<KeyLine> list_keys(const std::string& meaning) {
    return {{"↑  ↓",
             meaning,
             {{named(NamedKey::up), Group{Move{-1}}},
              {named(NamedKey::down), Group{Move{1}}},
              {named(NamedKey::page_up), Group{Move{-10}}},
              {named(NamedKey::page_down), Group{Move{10}}},
              {named(NamedKey::home), Group{Move{-1'000'000}}},
              {named(NamedKey::end), Group{Move{1'000'000}}}}}};
}

/// The swings of the open recording, or of a lesson under way.
[[nodiscard]] std::vector<KeyLine> swing_keys(const ViewState& state);
/// Swings laid over each other.
[[nodiscard]] std::vector<KeyLine> compare_keys(const ViewState& state);
/// The page of the book that is in front.
[[nodiscard]] std::vector<KeyLine> book_keys(const ViewState& state);

enum class WithLetters { yes, no };
/// Colours, size of text and sounds; letters where they type nothing else.
[[nodiscard]] std::vector<KeyLine> look_keys(const ViewState& state, WithLetters letters);
/// While a lesson runs that was not ended yet.
[[nodiscard]] std::vector<KeyLine> end_lesson_key(const ViewState& state);
/// To the book and its pages.
[[nodiscard]] std::vector<KeyLine> to_book_keys(const ViewState& state);
/// The list of keys, and away.
[[nodiscard]] std::vector<KeyLine> window_keys(const ViewState& state);

}  // namespace footing
