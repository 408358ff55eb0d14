#pragma once

#include <optional>
#include <span>

#include "viewer/panels/view_action.h"

namespace footing {

/// Keys that type no character.
enum class NamedKey {
    none,
    left,
    right,
    up,
    down,
    page_up,
    page_down,
    home,
    end,
    escape,
    enter,
    backspace,
    tab,
    erase,
};
enum class Modifier { none, shift, control };

/// One press (or repeat) of a key, as the window hears it: a character as the coach's keyboard types it,
/// whatever its layout, or a key that types none.
struct KeyPress {
    char32_t character = 0;
    NamedKey key = NamedKey::none;
    Modifier modifier =
        Modifier::none;  ///< looked at for keys that type no character, and for control with a letter
    friend bool operator==(const KeyPress&, const KeyPress&) = default;
};

/// One key, what it does, and how the list under `?` says it. Reading and listing use this one table.
struct KeyBinding {
    KeyPress press;
    ViewAction action;
};

/// A line of the list under `?`: one or two keys that belong together.
struct KeyLine {
    const char* keys;
    const char* meaning;
    std::span<const KeyBinding> bindings;
};

/// All keys, in the order in which they are listed.
[[nodiscard]] std::span<const KeyLine> key_lines();

/// What a key asks for; nothing for a key without a meaning.
[[nodiscard]] std::optional<ViewAction> action_for(const KeyPress& press);

/// The same with what the window shows in mind: while a carry is typed, the point belongs to it.
[[nodiscard]] std::optional<ViewAction> action_for(const KeyPress& press, const ViewState& state);

}  // namespace footing
