#pragma once

#include <optional>
#include <string>
#include <vector>

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

/// One key and what it does.
struct KeyBinding {
    KeyPress press;
    ViewAction action;
};

/// A line of the list under `?`: keys that belong together, and what they do. Reading and listing use the
/// same lines.
struct KeyLine {
    std::string keys;
    std::string meaning;
    std::vector<KeyBinding> bindings;
};

/// The keys that the screen in front takes, in the order in which they are listed: none that does nothing
/// there. Where two lines have the same key, the first one holds.
[[nodiscard]] std::vector<KeyLine> keys_in_front(const ViewState& state);

/// The same for a state without anything over the screen: what `?` lists.
[[nodiscard]] std::vector<KeyLine> listed_keys(const ViewState& state);

/// Keys of one kind of screen, for people who look for them outside the window.
struct KeySection {
    std::string screen;
    std::vector<KeyLine> lines;
};
[[nodiscard]] std::vector<KeySection> keys_by_screen();

/// What a key asks for on the screen in front; nothing for a key without a meaning there.
[[nodiscard]] std::optional<ViewAction> action_for(const KeyPress& press, const ViewState& state);

}  // namespace footing
