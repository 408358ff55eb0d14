#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

#include "tests/support/lesson_sample.h"
#include "viewer/panels/keys.h"
#include "viewer/panels/screen.h"
#include "viewer/panels/view_action.h"

namespace footing::bench {

/// The sample lesson, opened.
inline ViewState open_sample() {
    return show_lesson(std::make_shared<const LessonResult>(sample::lesson()));
}

/// What the window becomes when that key is pressed; as it was when the key asks for nothing.
inline ViewState press(ViewState state, const KeyPress& key) {
    const auto asked = action_for(key, state);
    return asked ? carry_out(std::move(state), *asked) : state;
}

/// Types the characters one after the other.
inline ViewState type(ViewState state, const std::u32string& characters) {
    for (const char32_t character : characters) state = press(std::move(state), {.character = character});
    return state;
}

inline constexpr KeyPress enter{.key = NamedKey::enter};
inline constexpr KeyPress undo{.character = U'z', .modifier = Modifier::control};
inline constexpr KeyPress redo{.character = U'y', .modifier = Modifier::control};

/// Whether a text with that part in it was drawn.
inline bool shows(const ScreenDrawn& drawn, const std::string& part) {
    return std::any_of(drawn.texts.begin(), drawn.texts.end(),
                       [&](const PlacedText& placed) { return placed.text.find(part) != std::string::npos; });
}

}  // namespace footing::bench
