#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/report/gap_marks.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

struct TimeAxis {
    Box box;
    double duration_s;

    [[nodiscard]] float x_of(double time_s) const {
        const double part = duration_s > 0.0 ? std::clamp(time_s / duration_s, 0.0, 1.0) : 0.0;
        return box.left + static_cast<float>(part) * box.width();
    }
    [[nodiscard]] double time_at(float x) const {
        return duration_s * static_cast<double>(std::clamp((x - box.left) / box.width(), 0.0F, 1.0F));
    }
};

/// Seconds between two labels: the smallest step of a clock that leaves them room.
double label_step_s(double duration_s, float width, float room) {
    constexpr std::array<double, 13> steps{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600};
    for (const double step : steps) {
        if (static_cast<double>(width) * step / std::max(duration_s, 1e-9) >= static_cast<double>(room))
            return step;
    }
    return duration_s;
}

void draw_load(ScreenCanvas& canvas, const TimeAxis& axis, const Box& box, const Overview& overview) {
    if (overview.columns.empty() || overview.greatest_n <= 0.0F) return;
    const auto pixels = static_cast<std::size_t>(std::max(box.width(), 1.0F));
    const std::size_t columns = overview.columns.size();
    for (std::size_t pixel = 0; pixel < pixels; ++pixel) {
        const std::size_t from = pixel * columns / pixels;
        const std::size_t to = std::max(from + 1, (pixel + 1) * columns / pixels);
        float greatest = 0.0F;
        for (std::size_t column = from; column < std::min(to, columns); ++column) {
            greatest = std::max(greatest, overview.columns[column].greatest_n);
        }
        const float height = box.height() * std::clamp(greatest / overview.greatest_n, 0.0F, 1.0F);
        const float x = axis.box.left + static_cast<float>(pixel);
        canvas.list().AddRectFilled({x, box.bottom - height}, {x + 1.0F, box.bottom},
                                    canvas.colour(Ink::band));
    }
}

/// One block a swing; of those that begin in the same px the first, and at any rate the chosen one, so that
/// thousands of swings cost no more than there are px.
void draw_swings(ScreenCanvas& canvas, const TimeAxis& axis, const Box& box, const ViewState& state) {
    const std::vector<Swing>& swings = state.lesson->swings;
    const auto block_of = [&](const Swing& swing) {
        const float left = axis.x_of(swing.from_s);
        return Box{left, box.top, std::max(axis.x_of(swing.to_s), left + canvas.px(3)), box.bottom};
    };
    for (auto swing = swings.begin(); swing != swings.end();) {
        const Box block = block_of(*swing);
        if (swing->kind == SwingKind::shot) {
            canvas.fill(block, Ink::quiet, 1.0, 1.0F);
        } else {
            canvas.frame(block.inset(0.5F, 0.5F), Ink::quiet, 1.0F, 1.0F);
        }
        swing = std::partition_point(swing + 1, swings.end(), [&](const Swing& later) {
            return axis.x_of(later.from_s) < block.left + 1.0F;
        });
    }
    if (const Swing* chosen = chosen_swing(state)) {
        const Box block = block_of(*chosen).inset(0.0F, -canvas.px(2));
        canvas.fill(block, Ink::ink, 1.0, 1.0F);
    }
}

void draw_gaps(ScreenCanvas& canvas, const Box& load, const LessonResult& lesson) {
    const GapMarks gaps = gap_marks(lesson.facts.gaps, {0.0, lesson.duration_s},
                                    static_cast<double>(load.width()), static_cast<double>(canvas.px(3)));
    for (const GapMark& gap : gaps.marks) {
        const float left = load.left + static_cast<float>(gap.from_px);
        const float right = load.left + static_cast<float>(gap.to_px);
        const float top = gap.look == GapLook::tick ? load.bottom - canvas.px(4) : load.top;
        canvas.fill({left, top, right, load.bottom}, Ink::loss, 0.5);
    }
}

}  // namespace

void draw_timeline(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                   std::vector<ViewAction>& asked) {
    canvas.enter("timeline");
    const LessonResult& lesson = *state.lesson;
    Box rest = box;
    rest.cut_top(canvas.px(8));  // where the head's handle hangs
    const Box blocks = rest.cut_top(canvas.px(12)).inset(0.0F, canvas.px(2));
    const Box labels = rest.cut_bottom(canvas.px(16));
    const Box load = rest;
    const TimeAxis axis{load, lesson.duration_s};

    const Touch found = touch("timeline", box);
    if (found == Touch::pressed || found == Touch::held) {
        asked.push_back(ScrubTo{axis.time_at(ImGui::GetIO().MousePos.x)});
    }

    if (state.overview) draw_load(canvas, axis, load, *state.overview);
    draw_gaps(canvas, load, lesson);
    canvas.line({load.left, load.bottom}, {load.right, load.bottom}, Ink::grid);
    draw_swings(canvas, axis, blocks, state);

    const double step_s = label_step_s(lesson.duration_s, box.width(), canvas.px(96));
    for (double t = 0.0; t <= lesson.duration_s && step_s > 0.0; t += step_s) {
        const std::string words = clock_words(t, 0);
        const float half = canvas.text_width(words, TextSize::small) / 2.0F + 1.0F;
        const float x = std::clamp(axis.x_of(t), box.left + half, box.right - half);
        // At the ends the label stands aside of its instant, where a tick would read as an apostrophe.
        if (x == axis.x_of(t)) canvas.line({x, load.bottom}, {x, load.bottom + canvas.px(3)}, Ink::quiet);
        canvas.text({x - half, labels.top, x + half, labels.bottom}, words, TextSize::small, Ink::quiet,
                    Align::middle);
    }

    const float head = axis.x_of(state.head_s);
    canvas.line({head, box.top + canvas.px(4)}, {head, load.bottom}, Ink::ink, 1.5F);
    canvas.mark({head, box.top + canvas.px(4)}, MarkShape::dot, 4.0F, Ink::ink);
}

}  // namespace footing
