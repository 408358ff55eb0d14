#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/report/figure_kit.h"
#include "analysis/report/figure_scale.h"

namespace footing {

/// The pieces that the figures of swings are put together from. Each draws into the boxes of the scale it is
/// given.
struct SwingPicture {
    const LessonResult& lesson;
    const SwingFigureOptions& options;
    SwingScale scale;
    std::vector<const Swing*> swings;  ///< those asked for that exist; the one looked at comes first
    FigureKit kit;
    std::optional<TargetBand> band = std::nullopt;  ///< of the swing looked at, where it is not the lesson's

    [[nodiscard]] TargetBand band_shown() const { return band.value_or(lesson.band); }

    [[nodiscard]] double px(double unscaled) const { return unscaled * options.text_scale; }
};

[[nodiscard]] std::vector<const Swing*> chosen_swings(const LessonResult& lesson,
                                                      const SwingFigureOptions& options);

/// First sample at or after a time; trace.size() when there is none.
[[nodiscard]] std::size_t sample_from(const LoadTrace& trace, double time_s);

/// Whether there is a lead share to draw at all.
[[nodiscard]] bool has_shares(const LessonResult& lesson);

/// A sentence in place of a trace; the short one where there is no room.
void draw_notice(SwingPicture& picture, const std::string& notice, const std::string& short_notice);
/// Names of the feet over the rule (baseline `names_y`).
void draw_foot_names(SwingPicture& picture, double names_y);
/// The stripe of the target band from `top` to `bottom`, with thin edges.
void draw_band(SwingPicture& picture, double top, double bottom);
/// Numerals, ticks and line of the rule at height `rule_y`.
void draw_rule(SwingPicture& picture, double rule_y);
/// Whole-second lines and their labels on the right.
void draw_time_grid(SwingPicture& picture);
/// Where frames were lost, shaded across the trace.
void draw_loss(SwingPicture& picture);
/// The lines of all swings, the one looked at last.
void draw_traces(SwingPicture& picture);
/// Labels, leaders and verdict marks of the swing looked at.
void draw_events(SwingPicture& picture);
/// The moving head across the trace, with the share there.
void draw_head(SwingPicture& picture);

/// Feet and CoP path over the rule, the feet's mean CoP over 0 % and 100 %.
void draw_feet_over_rule(SwingPicture& picture);

}  // namespace footing
