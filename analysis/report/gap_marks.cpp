#include "analysis/report/gap_marks.h"

#include <algorithm>

#include "analysis/report/number_words.h"

namespace footing {

namespace {
constexpr double thinnest_tick_px = 1.0;
constexpr double apart_px = 1.0;  ///< ticks nearer to each other than this are one
}  // namespace

GapMarks gap_marks(std::span<const TimeSpan> gaps, const TimeSpan& shown, double length_px, double least_px) {
    GapMarks all;
    const double shown_s = shown.to_s - shown.from_s;
    if (!(shown_s > 0.0)) return all;
    const auto px = [&](double time_s) {
        return length_px * (std::clamp(time_s, shown.from_s, shown.to_s) - shown.from_s) / shown_s;
    };
    for (const TimeSpan& gap : gaps) {
        if (gap.to_s <= shown.from_s || gap.from_s >= shown.to_s) continue;
        GapMark mark{px(gap.from_s), px(gap.to_s), GapLook::shaded};
        if (mark.to_px - mark.from_px >= least_px) {
            all.marks.push_back(mark);
            continue;
        }
        ++all.short_gaps;
        mark.look = GapLook::tick;
        mark.to_px = std::max(mark.to_px, mark.from_px + thinnest_tick_px);
        const bool touches = !all.marks.empty() && all.marks.back().look == GapLook::tick &&
                             mark.from_px - all.marks.back().to_px < apart_px;
        if (touches) {
            all.marks.back().to_px = std::max(all.marks.back().to_px, mark.to_px);
        } else {
            all.marks.push_back(mark);
        }
    }
    return all;
}

std::string short_gap_words(std::size_t short_gaps) {
    return count_words(short_gaps, "short gap", "short gaps");
}

}  // namespace footing
