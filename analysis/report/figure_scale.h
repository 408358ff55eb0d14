#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "analysis/report/lesson_result.h"

namespace footing {

/// On which side of the picture the target is. Right unless the coach asks otherwise; left turns the picture
/// half round, so that it stays a true view from above.
enum class TargetSide { right, left };

/// Whether the share at the head is written beside the head's line; the window writes it large elsewhere.
enum class HeadLabel { beside_line, none };

/// What a figure of swings shall show.
struct SwingFigureOptions {
    double width = 640.0;   ///< px
    double height = 480.0;  ///< px
    std::vector<std::size_t>
        swings;  ///< places in LessonResult::swings, from 0; the first is the one looked at, the
                 ///< others are drawn behind it to compare; places that do not exist are passed over
    std::optional<double> head_time_s;  ///< the moving head, in seconds from the first frame; absent: no head
    HeadLabel head_label = HeadLabel::beside_line;
    TargetSide target_side = TargetSide::right;
    double edge = 8.0;  ///< px kept free at the left and right edge; 0 where the page has a margin of its own
    double text_scale = 1.0;  ///< of the four text sizes and the margins that hold them
};

/// A rectangle of a figure, px, y down.
struct FigureBox {
    double left = 0.0;
    double top = 0.0;
    double right = 0.0;
    double bottom = 0.0;
    [[nodiscard]] double width() const { return right - left; }
    [[nodiscard]] double height() const { return bottom - top; }
};

/// How lead share and time lie on a figure: share across, time down. The window uses it to turn a click into
/// a time.
struct SwingScale {
    FigureBox feet;   ///< where the feet stand; empty in a figure without them
    FigureBox trace;  ///< where the lines run
    TargetSide target_side = TargetSide::right;
    double zero_s = 0.0;   ///< the zero of the swing looked at, in seconds from the first frame
    double from_s = -1.0;  ///< at the trace's top, from the zero
    double to_s = 1.0;     ///< at its bottom

    [[nodiscard]] double x_of_share(double share) const;
    [[nodiscard]] double share_at(double x) const;
    /// `from_zero_s`: seconds from the swing's zero.
    [[nodiscard]] double y_of(double from_zero_s) const;
    /// Seconds from the first frame at a height on the figure.
    [[nodiscard]] double time_at(double y) const;
};

/// The instant that swings are laid over each other by, in seconds from the first frame: impact, or, where it
/// was not found, turnaround, top, takeaway, address, or the swing's own beginning, whichever comes first in
/// this row.
[[nodiscard]] double zero_of(const Swing& swing);

/// The name of that instant: "impact", …, "start".
[[nodiscard]] const char* zero_name(const Swing& swing);

/// Scale of share_figure() and of swing_figure() for the same options.
[[nodiscard]] SwingScale share_figure_scale(const LessonResult& lesson, const SwingFigureOptions& options);
[[nodiscard]] SwingScale swing_figure_scale(const LessonResult& lesson, const SwingFigureOptions& options);

}  // namespace footing
