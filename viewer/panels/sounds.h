#pragma once

#include <cstddef>
#include <optional>

namespace footing {

struct ViewState;

enum class Sounds { on, off };

/// What a coach who does not look at the screen must hear (U11).
enum class Sound {
    ready,     ///< the next swing will be caught
    captured,  ///< a swing was caught and is kept
    problem,   ///< nothing is recorded, or something was refused: look at the screen
};

/// What sounds follow from.
struct SoundCues {
    bool may_sound = false;    ///< sounds are on, and a lesson is under way
    bool in_trouble = false;   ///< nothing is recorded, or something was refused
    bool would_catch = false;  ///< a swing that came now: plates heard, zero taken
    bool replayed = false;     ///< a replay is in front
    std::size_t swings = 0;    ///< caught so far
};
[[nodiscard]] SoundCues sound_cues(const ViewState& state);

/// What to play when the window went from one to the other: the worst where several happened.
[[nodiscard]] std::optional<Sound> sound_for(const SoundCues& before, const SoundCues& after);

}  // namespace footing
