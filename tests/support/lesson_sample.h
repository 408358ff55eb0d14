#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "analysis/report/lesson_result.h"

/// Invented lessons for tests of figures, reports and panels: plausible in size and shape, the same at every
/// call.
namespace footing::sample {

inline constexpr double rate_hz = 200.0;
inline constexpr double seconds_per_swing = 14.0;
inline constexpr double impact_in_slot_s = 8.0;
inline constexpr double weight_n = 735.5;
inline constexpr double half_stance_m = 0.18;  ///< from the middle to the centre of each foot's plate

/// The plan of one swing: its shares, and when its events are, in seconds from impact.
struct SwingPlan {
    SwingKind kind = SwingKind::shot;
    double address = 0.74;
    double lowest = 0.62;
    double impact = 0.82;
    double finish = 0.90;
    double takeaway_s = -1.05;
    double turnaround_s = -0.38;
    double top_s = -0.33;
    double finish_s = 0.95;
};

/// Smooth step from 0 at `from` to 1 at `to`, level at both ends.
inline double rise(double t, double from, double to) {
    const double part = std::clamp((t - from) / (to - from), 0.0, 1.0);
    return part * part * part * (10.0 + part * (6.0 * part - 15.0));
}

inline constexpr double settle_s = 0.14;  ///< from impact to where the return ends

/// Lead share at `t` seconds from impact: level, dip onto the trail foot, return, held finish.
inline double planned_share(const SwingPlan& plan, double t) {
    const double back = rise(t, plan.takeaway_s, plan.turnaround_s);
    const double through = rise(t, plan.turnaround_s, settle_s);
    const double rest = rise(t, settle_s, plan.finish_s);
    const double peak = plan.lowest + (plan.impact - plan.lowest) / rise(0.0, plan.turnaround_s, settle_s);
    const double leave = rise(t, 4.0, 5.2);  // back to an even stance between two swings
    const double arrive = 1.0 - rise(t, -4.6, -3.2);
    const double swing = plan.address + (plan.lowest - plan.address) * back + (peak - plan.lowest) * through +
                         (plan.finish - peak) * rest;
    return swing + (0.55 - swing) * std::max(leave, arrive);
}

inline std::vector<SwingPlan> eight_swings() {
    using enum SwingKind;
    return {
        {practice, 0.742, 0.655, 0.801, 0.902, -1.10, -0.40, -0.35, 1.00},
        {practice, 0.751, 0.648, 0.809, 0.897, -1.08, -0.39, -0.34, 0.96},
        {shot, 0.731, 0.612, 0.826, 0.911, -1.02, -0.37, -0.32, 0.94},
        {shot, 0.688, 0.574, 0.843, 0.921, -0.98, -0.35, -0.30, 0.92},
        {shot, 0.745, 0.640, 0.764, 0.894, -1.04, -0.38, -0.33, 0.97},
        {shot, 0.762, 0.668, 0.781, 0.905, -1.06, -0.38, -0.34, 0.98},
        {shot, 0.702, 0.466, 0.871, 0.933, -0.93, -0.33, -0.28, 0.90},
        {shot, 0.757, 0.653, 0.778, 0.899, -1.05, -0.38, -0.33, 0.95},
    };
}

inline PlateLayout two_plates() {
    PlateLayout layout;
    layout.kind = FrameKind::cells;
    const std::vector<PointM> corners{{-0.13, 0.17}, {0.13, 0.17}, {-0.13, -0.17}, {0.13, -0.17}};
    layout.plates = {{"left", {-half_stance_m, 0.0}, corners}, {"right", {half_stance_m, 0.0}, corners}};
    return layout;
}

inline PlateLayout one_mat() {
    PlateLayout layout;
    layout.kind = FrameKind::grid;
    layout.grid = Grid{48, 64, 0.012, 0.012, {0.0, 0.0}};
    return layout;
}

inline ShareValue judged(double value, double u, const TargetBand& band) {
    return {value, u, judge(value, u, band)};
}

/// The columns of one sampling instant appended to the trace.
inline void append_sample(LoadTrace& trace, double share, double load_n, double t, Hand hand, double noise) {
    const double lead_n = share * load_n;
    const double left_n = hand == Hand::right ? lead_n : load_n - lead_n;
    const double right_n = load_n - left_n;
    const double left_x = -half_stance_m + 0.006 * std::sin(2.1 * t) + 0.0004 * noise;
    const double right_x = half_stance_m + 0.005 * std::sin(1.7 * t + 1.0);
    const double left_y = 0.012 + 0.030 * (share - 0.7) + 0.002 * std::sin(3.0 * t);
    const double right_y = -0.004 - 0.120 * (share - 0.7) + 0.0015 * std::sin(2.6 * t + 0.4);
    trace.time_s.push_back(t);
    trace.total_n.push_back(load_n);
    trace.left_n.push_back(left_n);
    trace.right_n.push_back(right_n);
    trace.left_x_m.push_back(left_x);
    trace.left_y_m.push_back(left_y);
    trace.right_x_m.push_back(right_x);
    trace.right_y_m.push_back(right_y);
    trace.cop_x_m.push_back((left_n * left_x + right_n * right_x) / load_n);
    trace.cop_y_m.push_back((left_n * left_y + right_n * right_y) / load_n);
    trace.trigger.push_back(0);
    trace.bridged.push_back(0);
}

inline std::size_t sample_at(const LoadTrace& trace, double t) {
    const auto found = std::lower_bound(trace.time_s.begin(), trace.time_s.end(), t);
    return std::min(static_cast<std::size_t>(found - trace.time_s.begin()), trace.size() - 1);
}

inline PointM stance_cop(const LoadTrace& trace, double t, Hand hand) {
    const std::size_t at = sample_at(trace, t);
    const double x = trace.cop_x_m[at];
    return {hand == Hand::right ? -x : x, trace.cop_y_m[at]};
}

inline Swing planned_swing(const SwingPlan& plan, std::size_t index, const LoadTrace& trace, Hand hand,
                           const TargetBand& band) {
    const double zero = seconds_per_swing * static_cast<double>(index - 1) + impact_in_slot_s;
    const bool triggered = plan.kind == SwingKind::shot;
    Swing swing;
    swing.index = index;
    swing.kind = plan.kind;
    swing.from_s = zero + plan.takeaway_s - 0.9;
    swing.to_s = zero + plan.finish_s + 0.9;
    swing.events.address = Event{zero + plan.takeaway_s - 0.10, 0.02, EventSource::estimated};
    swing.events.takeaway = Event{zero + plan.takeaway_s, 0.03, EventSource::estimated};
    swing.events.turnaround = Event{zero + plan.turnaround_s, 0.008, EventSource::estimated};
    swing.events.top = Event{zero + plan.top_s, 0.04, EventSource::estimated};
    swing.events.impact =
        triggered ? Event{zero, 0.001, EventSource::measured} : Event{zero, 0.020, EventSource::estimated};
    swing.events.finish = Event{zero + plan.finish_s, 0.08, EventSource::estimated};
    swing.lead_share.address = judged(plan.address, 0.004, band);
    swing.lead_share.turnaround = judged(plan.lowest, 0.005, band);
    swing.lead_share.lowest = swing.lead_share.turnaround;
    swing.lead_share.top = judged(planned_share(plan, plan.top_s), 0.018, band);
    swing.lead_share.impact = judged(plan.impact, triggered ? 0.006 : 0.024, band);
    swing.lead_share.finish = judged(plan.finish, 0.004, band);
    const double backswing = plan.top_s - plan.takeaway_s;
    swing.tempo = Tempo{backswing, -plan.top_s, backswing / -plan.top_s};
    swing.vertical = VerticalLoad{1.118, 0.902};
    swing.smoothness = Smoothness{-1.92, -6.41};
    swing.cop_m.address = stance_cop(trace, swing.events.address->time_s, hand);
    swing.cop_m.top = stance_cop(trace, swing.events.top->time_s, hand);
    swing.cop_m.impact = stance_cop(trace, zero, hand);
    swing.cop_m.finish = stance_cop(trace, swing.events.finish->time_s, hand);
    swing.cop_u_m.address = PointM{0.002, 0.0003};
    swing.lead.cop_m.impact = PointM{0.18, 0.011};
    swing.lead.cop_u_m.impact = PointM{0.004, 0.005};
    return swing;
}

/// A lesson of the given swings on two plates, nothing lost.
inline LessonResult lesson_of(const std::vector<SwingPlan>& plans, Hand hand = Hand::right) {
    LessonResult lesson;
    lesson.facts.file = "lesson-2026-05-14.h5";
    lesson.facts.student = "Sample Student";
    lesson.facts.hand = hand;
    lesson.facts.started = "2026-05-14 10:20:44 +02:00 Europe/Berlin";
    lesson.facts.device = "two plates, serial number 4711";
    lesson.facts.calibration = "calibrated 2026-04-30 with known masses, valid until 2027-04-30";
    lesson.facts.zero = "zeroed 2 times with the plates empty, last 3 min before the first swing";
    lesson.facts.layout = two_plates();
    lesson.rate_hz = rate_hz;
    lesson.body_weight_n = weight_n;
    const double slots = static_cast<double>(std::max<std::size_t>(plans.size(), 1));
    lesson.duration_s = slots * seconds_per_swing;
    lesson.facts.losses.frames = static_cast<std::uint64_t>(lesson.duration_s * rate_hz);
    lesson.trace.rate_hz = rate_hz;
    std::mt19937 random(20260514);
    double sway = 0.0;
    for (std::uint64_t i = 0; i < lesson.facts.losses.frames; ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        const double white = static_cast<double>(random()) / 4294967296.0 - 0.5;
        sway = 0.985 * sway + 0.0016 * white;
        const auto slot = static_cast<std::size_t>(t / seconds_per_swing);
        const double from_impact = t - seconds_per_swing * static_cast<double>(slot) - impact_in_slot_s;
        const double share = slot < plans.size() ? planned_share(plans[slot], from_impact) : 0.55;
        const double push = 0.11 * std::exp(-std::pow((from_impact + 0.06) / 0.09, 2)) -
                            0.09 * std::exp(-std::pow((from_impact - 0.12) / 0.10, 2));
        append_sample(lesson.trace, share + sway, weight_n * (1.0 + push) + 2.0 * white, t, hand, white);
    }
    for (std::size_t i = 0; i < plans.size(); ++i) {
        lesson.swings.push_back(planned_swing(plans[i], i + 1, lesson.trace, hand, lesson.band));
        if (plans[i].kind == SwingKind::shot) {
            const std::size_t impact = sample_at(lesson.trace, lesson.swings.back().events.impact->time_s);
            for (std::size_t at = impact; at < impact + 4; ++at) lesson.trace.trigger[at] = 1;
        }
    }
    return lesson;
}

/// Eight swings of a right-handed (or left-handed) golfer, two of them practice swings.
inline LessonResult lesson(Hand hand = Hand::right) {
    return lesson_of(eight_swings(), hand);
}

/// The same with two gaps, one of them inside swing 3 between turnaround and impact, and damaged packets.
inline LessonResult lesson_with_loss() {
    LessonResult lost = lesson();
    const double impact_3 = 2 * seconds_per_swing + impact_in_slot_s;
    lost.facts.gaps = {{2.0, 2.5}, {impact_3 - 0.30, impact_3 - 0.18}};
    for (const TimeSpan& gap : lost.facts.gaps) {
        for (std::size_t i = 0; i < lost.trace.size(); ++i) {
            const double t = lost.trace.time_s[i];
            if (t > gap.from_s && t < gap.to_s) {
                lost.trace.bridged[i] = 1;
                ++lost.facts.losses.lost;
            }
        }
    }
    lost.facts.losses.frames -= lost.facts.losses.lost;
    lost.facts.losses.damaged = 3;
    lost.facts.outcome = RecordingOutcome::lossy;
    lost.facts.cause = "frames were lost on the way from the plates";
    return lost;
}

/// A recording in which nobody swung.
inline LessonResult lesson_without_swings() {
    return lesson_of({});
}

/// Two swings of which little is known: the feet cannot be told apart, no weight, events and names missing.
inline LessonResult lesson_of_unknowns() {
    LessonResult bare = lesson_of({eight_swings()[0], eight_swings()[2]});
    bare.facts.student.clear();
    bare.facts.started.clear();
    bare.facts.device.clear();
    bare.facts.calibration.clear();
    bare.facts.zero.clear();
    bare.facts.layout.plates = {{"plate", {0.0, 0.0}, {{-0.3, 0.2}, {0.3, 0.2}, {-0.3, -0.2}, {0.3, -0.2}}}};
    bare.body_weight_n.reset();
    for (LoadTrace* trace = &bare.trace;
         auto* column : {&trace->left_n, &trace->right_n, &trace->left_x_m, &trace->left_y_m,
                         &trace->right_x_m, &trace->right_y_m}) {
        std::fill(column->begin(), column->end(), unknown);
    }
    for (Swing& swing : bare.swings) {
        swing.kind = SwingKind::unknown;
        swing.lead_share = {};
        swing.tempo.reset();
        swing.vertical.reset();
        swing.smoothness.reset();
    }
    bare.swings[1].events = {};
    bare.swings[1].cop_m = {};
    return bare;
}

/// Free text that tries to get out of its place, in every field that a person or a device can fill.
inline std::vector<std::string> hostile_names() {
    return {"<script>alert('x')</script>",
            "=HYPERLINK(\"http://example.org\";\"x\")",
            "../../etc/NUL",
            std::string(300, 'W'),
            "\xF0\x9F\x8F\x8C\xEF\xB8\x8F \xF0\x9F\x91\x8D",  // emoji
            "\xD7\x90\xD7\x91\xD7\x92 \xD8\xA7\xD8\xA8\xD8\xAC \xE2\x80\xAE"
            "abc",  // right-to-left
            "bad bytes \xFF\xC3\x28 and \x01 control\r\nnew line, \"quoted\"; & more ]]>"};
}

inline LessonResult hostile_lesson(const std::string& name) {
    LessonResult hostile = lesson_of({eight_swings()[2], eight_swings()[3]});
    hostile.facts.file = name;
    hostile.facts.student = name;
    hostile.facts.device = name;
    hostile.facts.calibration = name;
    hostile.facts.zero = name;
    hostile.facts.cause = name;
    hostile.facts.started = name;
    return hostile;
}

/// On a pressure mat, feet told apart.
inline LessonResult lesson_on_mat() {
    LessonResult mat = lesson();
    mat.facts.layout = one_mat();
    mat.facts.device = "a mat of 48 by 64, serial number 12";
    return mat;
}

}  // namespace footing::sample
