#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/report/figure_scale.h"
#include "analysis/report/number_words.h"
#include "analysis/report/swing_figure.h"
#include "viewer/panels/panels.h"
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

struct ShareHere {
    double value = unknown;
    std::string meaning;  ///< against the band
    std::string moment;
    std::optional<Verdict> verdict;
};

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

}  // namespace

void draw_share(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("share");
    const ShareHere here = share_here(state);
    if (!known(here.value)) {
        Box words = box;
        const bool feet = feet_known(state);
        canvas.text(words.cut_top(canvas.px(40)), "no lead share here", TextSize::heading, Ink::ink,
                    Align::left, TextWeight::bold);
        canvas.paragraph(
            words,
            feet ? "Nobody stands on the plates here."
                 : "One plate under both feet cannot tell them apart. The trace shows where the load is.",
            TextSize::text, Ink::quiet);
        return;
    }
    Box words = box;
    const std::string number = fmt::format("{:.0f}", here.value * 100.0);
    const float number_width = canvas.text_width("100", TextSize::figure, TextWeight::bold);
    const Box figure =
        words.cut_left(std::min(canvas.text_width(number, TextSize::figure, TextWeight::bold), number_width));
    canvas.text({figure.left, figure.top, figure.right + 1.0F, figure.bottom}, number, TextSize::figure,
                Ink::ink, Align::left, TextWeight::bold);
    words.cut_left(canvas.px(8));
    words = {words.left, box.middle_y() - canvas.px(36), words.right, box.middle_y() + canvas.px(36)};
    canvas.text(words.cut_top(canvas.px(24)), "% on the lead foot", TextSize::text, Ink::ink);
    Box meaning = words.cut_top(canvas.px(24));
    if (here.verdict) {
        const Box mark = meaning.cut_left(canvas.px(24));
        canvas.mark({mark.left + canvas.px(8), mark.middle_y()}, mark_of(*here.verdict), 6.0F, Ink::ink);
    }
    canvas.text(meaning, here.meaning, TextSize::text, Ink::ink, Align::left, TextWeight::bold);
    canvas.text(words.cut_top(canvas.px(24)), here.moment, TextSize::small, Ink::quiet);
}

}  // namespace footing
