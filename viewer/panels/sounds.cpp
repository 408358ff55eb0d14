#include "viewer/panels/sounds.h"

#include "viewer/panels/view_state.h"

namespace footing {

SoundCues sound_cues(const ViewState& state) {
    SoundCues cues;
    if (!state.desk || !state.desk->live) return cues;
    const LiveView& live = *state.desk->live;
    const bool running = live.stage == LessonStage::running;
    cues.may_sound = state.sounds == Sounds::on;
    cues.in_trouble = state.problem || live.problem || live.progress.problem ||
                      live.stage == LessonStage::failed || (running && live.progress.is_silent());
    cues.would_catch = running && !cues.in_trouble && live.zero_age_s.has_value();
    cues.replayed = state.desk->showing == Showing::replay;
    cues.swings = state.desk->labels.size();
    return cues;
}

std::optional<Sound> sound_for(const SoundCues& before, const SoundCues& after) {
    if (!after.may_sound) return std::nullopt;
    if (after.in_trouble && !before.in_trouble) return Sound::problem;
    if (after.swings > before.swings) return Sound::captured;
    const bool newly = after.would_catch && !before.would_catch;
    const bool again = after.would_catch && before.replayed && !after.replayed;
    if (newly || again) return Sound::ready;
    return std::nullopt;
}

}  // namespace footing
