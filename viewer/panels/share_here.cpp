#include "viewer/panels/share_here.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "analysis/report/number_words.h"
#include "analysis/report/swing_figure.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

struct EventHere {
    const char* name;
    std::optional<ShareValue> share;
};

/// The event that the head stands on: within half a sample, or half a px of a slow screen.
std::optional<EventHere> event_at(const Swing& swing, double time_s, double rate_hz) {
    const double near_s = std::max(rate_hz > 0.0 ? 0.51 / rate_hz : 0.0, 0.002);
    for (const NamedEvent& event : named_events) {
        const auto& found = swing.events.*event.member;
        if (!found || std::abs(found->time_s - time_s) > near_s) continue;
        for (const NamedShare& share : named_shares) {
            if (std::string_view(share.name) == event.name)
                return EventHere{event.name, swing.lead_share.*share.member};
        }
        return EventHere{event.name, std::nullopt};
    }
    return std::nullopt;
}

}  // namespace

ShareHere share_here(const ViewState& state) {
    const LessonResult& lesson = *state.lesson;
    const Swing* swing = chosen_swing(state);
    ShareHere here;
    here.moment = moment_words(swing, state.head_s);
    if (const auto sample = nearest_sample(lesson.trace, state.head_s))
        here.value = lead_share_at(lesson, *sample);
    if (swing) {
        if (const auto event = event_at(*swing, state.head_s, lesson.rate_hz)) {
            here.moment = fmt::format("at {}", event->name);
            if (event->share) {
                here.value = event->share->value;
                here.verdict = event->share->verdict;
                here.meaning = band_words_of(event->share->verdict);
                here.moment = fmt::format("at {}: {}", event->name, share_words(*event->share));
                return here;
            }
        }
    }
    if (known(here.value)) here.meaning = distance_words(here.value, lesson.band);
    return here;
}

std::string share_here_words(const ViewState& state) {
    const ShareHere here = share_here(state);
    if (!known(here.value)) return "";
    return here.verdict ? here.moment : fmt::format("{:.0f} %, {}", here.value * 100.0, here.moment);
}

}  // namespace footing
