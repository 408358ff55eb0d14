#include "analysis/report/mat_words.h"

#include <fmt/format.h>

#include <numbers>

#include "analysis/pressure/mat_summary.h"
#include "analysis/report/number_words.h"

namespace footing {

namespace {

constexpr double shortest_worth_saying_s = 0.05;

std::string degrees(double angle_rad) {
    return number_words(angle_rad * 180.0 / std::numbers::pi, 0) + "°";
}

}  // namespace

std::string mat_words(const LessonResult& lesson) {
    if (lesson.trace.mat.empty()) return "";
    const MatSummary summary = mat_summary(lesson.trace);
    std::string text = "the feet were told apart by the areas that they touch";
    const auto midline = [&](double seconds, FeetTold told) {
        if (seconds < shortest_worth_saying_s) return;
        text += fmt::format("; parted at the midline for {} of {}, since {}", duration_words(seconds),
                            duration_words(summary.stood_s), midline_reason(told));
    };
    midline(summary.one_area_s, FeetTold::one_area);
    midline(summary.in_a_line_s, FeetTold::in_a_line);
    if (summary.other_s >= shortest_worth_saying_s) {
        text += fmt::format("; something else on the mat (up to {} N, for {}) was left out",
                            number_words(summary.most_other_n, 0), duration_words(summary.other_s));
    }
    if (lesson.facts.dead_elements > 0) {
        text += fmt::format("; {} took the mean of the elements around them",
                            count_words(lesson.facts.dead_elements, "dead element", "dead elements"));
    }
    if (summary.most_clipped > 0) {
        text += fmt::format("; up to {} at the end of their range, for {}: there the load is more than shown",
                            count_words(summary.most_clipped, "element", "elements"),
                            duration_words(summary.clipped_s));
    }
    return text;
}

std::string stance_words(const SwingStance& stance, Hand hand) {
    if (stance.told != FeetTold::areas) return std::string("not known: ") + midline_reason(stance.told);
    std::string text = stance.width_m ? number_words(*stance.width_m, 2) + " m wide" : "width not known";
    const bool left_leads = hand == Hand::right;
    const auto& trail_rad = left_leads ? stance.right_toe_out_rad : stance.left_toe_out_rad;
    const auto& lead_rad = left_leads ? stance.left_toe_out_rad : stance.right_toe_out_rad;
    if (!trail_rad && !lead_rad) return text;
    text += ", toes out ";
    if (trail_rad) text += "trail " + degrees(*trail_rad);
    if (trail_rad && lead_rad) text += ", ";
    if (lead_rad) text += "lead " + degrees(*lead_rad);
    return text;
}

}  // namespace footing
