#include "viewer/panels/keys.h"

#include <array>

namespace footing {

namespace {

KeyPress typed(char32_t character) {
    return {.character = character};
}
KeyPress named(NamedKey key, Modifier modifier = Modifier::none) {
    return {.key = key, .modifier = modifier};
}
KeyPress with_control(char32_t letter) {
    return {.character = letter, .modifier = Modifier::control};
}

struct KeyTable {
    std::array<KeyBinding, 1> play{{{typed(U' '), TogglePlaying{}}}};
    std::array<KeyBinding, 2> samples{{{typed(U','), StepSamples{-1}}, {typed(U'.'), StepSamples{1}}}};
    std::array<KeyBinding, 2> short_steps{
        {{named(NamedKey::left), StepTime{-0.01}}, {named(NamedKey::right), StepTime{0.01}}}};
    std::array<KeyBinding, 2> long_steps{{{named(NamedKey::left, Modifier::shift), StepTime{-0.1}},
                                          {named(NamedKey::right, Modifier::shift), StepTime{0.1}}}};
    std::array<KeyBinding, 1> address{{{named(NamedKey::home), GoToEvent{&SwingEvents::address}}}};
    std::array<KeyBinding, 1> impact{{{typed(U'i'), GoToEvent{&SwingEvents::impact}}}};
    std::array<KeyBinding, 1> finish{{{named(NamedKey::end), GoToEvent{&SwingEvents::finish}}}};
    std::array<KeyBinding, 4> swings{{{named(NamedKey::up), ChooseNeighbour{-1}},
                                      {named(NamedKey::down), ChooseNeighbour{1}},
                                      {named(NamedKey::page_up), ChooseNeighbour{-1}},
                                      {named(NamedKey::page_down), ChooseNeighbour{1}}}};
    std::array<KeyBinding, 1> keep{{{typed(U'c'), KeepForComparison{}}}};
    std::array<KeyBinding, 1> loop{{{typed(U'l'), ToggleLooping{}}}};
    std::array<KeyBinding, 2> speed{{{typed(U'['), ChangeSpeed{-1}}, {typed(U']'), ChangeSpeed{1}}}};
    std::array<KeyBinding, 1> theme{{{typed(U't'), ToggleTheme{}}}};
    std::array<KeyBinding, 1> numbers{{{typed(U'n'), ToggleNumbers{}}}};
    std::array<KeyBinding, 2> help{{{typed(U'?'), ToggleKeys{}}, {named(NamedKey::escape), CloseOverlay{}}}};
    std::array<KeyBinding, 1> close{{{with_control(U'q'), CloseWindow{}}}};

    std::array<KeyLine, 15> lines{{{"Space", "play, pause", play},
                                   {",  .", "one sample back, on", samples},
                                   {"←  →", "10 ms back, on", short_steps},
                                   {"Shift ←  →", "100 ms back, on", long_steps},
                                   {"Home", "to the address", address},
                                   {"I", "to impact", impact},
                                   {"End", "to the finish", finish},
                                   {"↑  ↓", "the swing before, the next", swings},
                                   {"C", "keep this swing to compare; let it go", keep},
                                   {"[  ]", "slower, faster", speed},
                                   {"L", "play in a loop, or once", loop},
                                   {"N", "all numbers of this swing, and away", numbers},
                                   {"T", "light, dark", theme},
                                   {"?", "show or hide these keys", help},
                                   {"Ctrl Q", "close", close}}};
};

const KeyTable& table() {
    static const KeyTable keys;
    return keys;
}

/// Letters mean the same with and without shift (or caps lock).
char32_t lower(char32_t character) {
    return character >= U'A' && character <= U'Z' ? character - U'A' + U'a' : character;
}

}  // namespace

std::span<const KeyLine> key_lines() {
    return table().lines;
}

std::optional<ViewAction> action_for(const KeyPress& press) {
    KeyPress wanted = press;
    wanted.character = lower(press.character);
    if (wanted.character != 0 && wanted.modifier == Modifier::shift) wanted.modifier = Modifier::none;
    // Shift adds nothing to a key that has no meaning of its own with it.
    KeyPress without_shift = wanted;
    if (without_shift.modifier == Modifier::shift) without_shift.modifier = Modifier::none;
    for (const KeyPress& candidate : {wanted, without_shift}) {
        for (const KeyLine& line : key_lines()) {
            for (const KeyBinding& binding : line.bindings) {
                if (binding.press == candidate) return binding.action;
            }
        }
    }
    return std::nullopt;
}

}  // namespace footing
