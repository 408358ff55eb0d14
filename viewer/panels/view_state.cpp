#include "viewer/panels/view_state.h"

#include <algorithm>
#include <cmath>

#include "analysis/report/drawn_sample.h"
#include "analysis/report/figure_scale.h"

namespace footing {

namespace {

constexpr double context_s = 10.0;  // shown at once where there is no swing to show

std::optional<std::size_t> first_to_show(const LessonResult& lesson) {
    if (lesson.swings.empty()) return std::nullopt;
    const auto shot = std::find_if(lesson.swings.begin(), lesson.swings.end(),
                                   [](const Swing& swing) { return swing.kind == SwingKind::shot; });
    return shot == lesson.swings.end() ? 0 : static_cast<std::size_t>(shot - lesson.swings.begin());
}

const Swing* swing_at(const ViewState& state, std::optional<std::size_t> place) {
    if (!state.lesson || !place || *place >= state.lesson->swings.size()) return nullptr;
    return &state.lesson->swings[*place];
}

/// What was said of the swings before, each at its place now; of a swing that is new nothing was.
std::vector<SwingLabel> labels_for(const LessonResult& lesson, const ViewState& before) {
    if (!before.lesson || before.said.labels.empty()) return {};
    std::vector<SwingLabel> labels(lesson.swings.size());
    const std::size_t known = std::min(before.said.labels.size(), before.lesson->swings.size());
    for (std::size_t was = 0; was < known; ++was) {
        for (std::size_t now = 0; now < labels.size(); ++now) {
            const double apart_s = zero_of(lesson.swings[now]) - zero_of(before.lesson->swings[was]);
            if (std::abs(apart_s) <= same_swing_s) labels[now] = before.said.labels[was];
        }
    }
    return labels;
}

}  // namespace

ViewState show_lesson(std::shared_ptr<const LessonResult> lesson, ViewState before) {
    ViewState state = std::move(before);
    state.opening.clear();
    state.problem.reset();
    state.marking = {};
    state.said = {};
    state.compared.reset();
    state.compare.reset();
    if (state.front == Front::compare) state.front = Front::swings;
    state.playing = Playing::paused;
    state.overview = lesson ? std::make_shared<Overview>(make_overview(lesson->trace)) : nullptr;
    state.chosen = lesson ? first_to_show(*lesson) : std::nullopt;
    state.lesson = std::move(lesson);
    const Swing* swing = chosen_swing(state);
    state.head_s = swing ? zero_of(*swing) : 0.0;
    return state;
}

ViewState show_again(std::shared_ptr<const LessonResult> lesson, ViewState before) {
    const auto place_in = [&](std::optional<std::size_t> place) -> std::optional<std::size_t> {
        const Swing* swing = swing_at(before, place);
        if (!swing || lesson->swings.empty()) return std::nullopt;
        const auto nearest = std::ranges::min_element(lesson->swings, {}, [&](const Swing& other) {
            return std::abs(zero_of(other) - zero_of(*swing));
        });
        if (std::abs(zero_of(*nearest) - zero_of(*swing)) > same_swing_s) return std::nullopt;
        return static_cast<std::size_t>(nearest - lesson->swings.begin());
    };
    ViewState state = before;
    state.said.labels = labels_for(*lesson, before);
    state.chosen = place_in(before.chosen);
    state.compared = place_in(before.compared);
    state.overview = std::make_shared<Overview>(make_overview(lesson->trace));
    state.lesson = std::move(lesson);
    state.marking.dragged.reset();
    const TimeSpan span = played_span(state);
    state.head_s = std::clamp(state.head_s, span.from_s, std::max(span.from_s, span.to_s));
    return state;
}

float scale_for(const ViewState& state, float width_px, float height_px, float density) {
    return screen_scale(width_px, height_px, density,
                        text_sizes[std::min(state.text_size, text_sizes.size() - 1)]);
}

const Swing* chosen_swing(const ViewState& state) {
    return swing_at(state, state.chosen);
}

const Swing* compared_swing(const ViewState& state) {
    return state.compared == state.chosen ? nullptr : swing_at(state, state.compared);
}

TimeSpan played_span(const ViewState& state) {
    if (!state.lesson) return {};
    const Swing* swing = chosen_swing(state);
    if (!swing) return {0.0, state.lesson->duration_s};
    return {std::max(swing->from_s, 0.0), std::min(swing->to_s, state.lesson->duration_s)};
}

TimeSpan shown_span(const ViewState& state) {
    const TimeSpan played = played_span(state);
    if (chosen_swing(state) || played.to_s - played.from_s <= context_s) return played;
    // Page by page rather than about the head, so that the picture stands still while the head moves.
    const double from = std::floor(state.head_s / context_s) * context_s;
    return {std::min(from, played.to_s - context_s), std::min(from + context_s, played.to_s)};
}

std::optional<double> compared_head_s(const ViewState& state) {
    const Swing* swing = chosen_swing(state);
    const Swing* other = compared_swing(state);
    if (!swing || !other) return std::nullopt;
    return state.head_s - zero_of(*swing) + zero_of(*other);
}

bool is_recording(const ViewState& state) {
    if (!state.desk || !state.desk->live) return false;
    const LessonStage stage = state.desk->live->stage;
    return stage == LessonStage::running || stage == LessonStage::closing;
}

bool is_calibrating(const ViewState& state) {
    if (!state.book || !state.book->bench.view) return false;
    return state.book->bench.view->task == PlatesTask::calibrating;
}

std::optional<std::size_t> nearest_sample(const LoadTrace& trace, double time_s) {
    if (trace.time_s.empty()) return std::nullopt;
    const auto after = std::lower_bound(trace.time_s.begin(), trace.time_s.end(), time_s);
    if (after == trace.time_s.begin()) return 0;
    if (after == trace.time_s.end()) return trace.time_s.size() - 1;
    const auto before = after - 1;
    const auto nearest = time_s - *before <= *after - time_s ? before : after;
    return static_cast<std::size_t>(nearest - trace.time_s.begin());
}

double lead_share_at(const LessonResult& lesson, std::size_t sample) {
    return drawn_share(lesson, sample);
}

bool feet_known(const ViewState& state) {
    return state.overview && state.overview->samples_with_feet > 0;
}

}  // namespace footing
