#include "tests/support/swing_generator.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/support/lesson_track.h"
#include "tests/support/motion_shapes.h"
#include "tests/support/pastimes.h"
#include "tests/support/plate_noise.h"

namespace footing::testing {

namespace {

constexpr double pi = std::numbers::pi;

/// The script of a lesson: who does what when.
class LessonWriter {
  public:
    explicit LessonWriter(const LessonPlan& plan) : plan_(plan), draw_(plan.seed * 7919 + 17) {
        track_.rate_hz = plan.rate_hz;
    }

    GeneratedLesson write() {
        track_.empty(draw_(1.0, 2.5));
        track_.step_on(draw_);
        track_.stand(draw_(1.5, 3.5));
        for (int i = 0; i < plan_.swings; ++i) {
            if (plan_.with_distractions) {
                const int count = static_cast<int>(draw_(0.0, 3.0));
                for (int k = 0; k < count; ++k) pass_the_time();
            }
            const double goal = draw_(0.48, 0.70);
            track_.settle_to(goal, draw_(0.7, 1.4));
            if (plan_.with_distractions && draw_.chance(0.5)) waggle(track_, draw_);
            track_.stand(draw_(0.8, 2.2));
            swing();
        }
        if (plan_.with_distractions) pass_the_time();
        track_.stand(2.0);
        track_.step_off(draw_);
        track_.empty(1.0);
        GeneratedLesson lesson;
        measure_lesson(plan_, track_, draw_, lesson);
        for (TrueSwing& swing : swings_) complete(swing, lesson);
        lesson.swings = swings_;
        lesson.distractions = distractions_;
        return lesson;
    }

  private:
    void pass_the_time() {
        const double from_s = track_.now_s();
        const std::size_t from = track_.now();
        const Pastime pastime = any_pastime(plan_.golfers == Golfers::all_kinds, draw_);
        pastime.happen(track_, draw_);
        distractions_.push_back({pastime.what, from_s, track_.now_s()});
        if (plan_.stray_triggers > 0.0 && draw_.chance(plan_.stray_triggers))
            speak(from +
                  static_cast<std::size_t>(draw_(0.0, 1.0) * static_cast<double>(track_.now() - from)));
        track_.stand(draw_(0.2, 1.5));
    }

    /// The trigger is set for 20 ms.
    void speak(std::size_t at) {
        const std::size_t width = static_cast<std::size_t>(std::max(1.0, 0.02 * plan_.rate_hz));
        for (std::size_t i = at; i < std::min(at + width, track_.now()); ++i) track_.trigger[i] = 1;
    }

    LoadPath any_path() {
        const double unusual = draw_(0.0, 1.0);
        if (plan_.golfers == Golfers::usual) {
            if (unusual < 0.5 * plan_.unusual_golfers) return LoadPath::stays_lead;
            if (unusual < plan_.unusual_golfers) return LoadPath::nearly_constant;
            return LoadPath::trail_then_lead;
        }
        if (unusual < 0.05) return LoadPath::stays_lead;
        if (unusual < 0.10) return LoadPath::nearly_constant;
        if (unusual < 0.18) return LoadPath::hangs_back;
        if (unusual < 0.38) return LoadPath::half_swing;
        return LoadPath::trail_then_lead;
    }

    void swing() {
        TrueSwing truth;
        truth.path = any_path();
        const double length = draw_(0.0, 1.0);  // 0 is a short pitch, 1 a full swing
        SwingSize size;
        size.address = track_.level;
        size.back = plan_.smallest_backswing +
                    (plan_.largest_backswing - plan_.smallest_backswing) * length * draw_(0.6, 1.0);
        size.end = std::min(0.96, std::max(size.address + 0.08, 0.78 + 0.14 * length + draw_(-0.05, 0.05)));
        if (truth.path == LoadPath::stays_lead) size.back = -draw_(0.01, 0.04);
        if (truth.path == LoadPath::nearly_constant) {
            size.back = draw_(-0.004, 0.004);
            size.end = size.address + draw_(0.01, 0.04);
        }
        if (truth.path == LoadPath::hangs_back) {
            size.back = std::max(size.back, 0.05);
            size.end = size.address + draw_(-0.2, 0.6) * size.back;
        }
        if (truth.path == LoadPath::half_swing) {
            size.back = draw_(0.018, 0.03);
            size.end = size.address + draw_(0.01, 0.06);
        }
        truth.backswing = size.back;
        size.backswing_s = draw_(0.55, 0.75) + 0.3 * length * draw_(0.0, 1.0);
        size.downswing_s = draw_(0.22, 0.34);
        double push =
            0.05 + 0.35 * length * draw_(0.6, 1.0) + (truth.path == LoadPath::nearly_constant ? 0.05 : 0.0);
        if (truth.path == LoadPath::half_swing) push = draw_(0.04, 0.12);
        const double hold = draw_(0.5, 2.0);
        const double forward_back =
            truth.path == LoadPath::nearly_constant ? -draw_(0.01, 0.027) : draw_(-0.015, 0.01);
        const double forward_end = draw_(-0.01, 0.025);
        size.overshoot = draw_(-0.01, 0.03) * (size.end - size.address);
        size.follow_s = draw_(0.25, 0.5);

        const double push_before = draw_(0.05, 0.11);
        const double push_width = draw_(0.05, 0.085);
        const double drop = push * draw_(0.3, 0.9);
        const double drop_after = draw_(0.02, 0.09);
        const double drop_width = draw_(0.05, 0.09);
        const ShareMotion motion = share_motion(plan_.shape, size, plan_.rate_hz, draw_);
        const double impact = motion.impact_s;

        Curve load = [=](double t) {
            return 1.0 + push * bell((t - (impact - push_before)) / push_width) -
                   drop * bell((t - (impact + drop_after)) / drop_width) -
                   0.25 * push * bell((t - (impact - size.downswing_s - 0.02)) / 0.09);
        };
        if (plan_.golfers == Golfers::all_kinds) load = load_of_a_body(push, impact);
        if (plan_.shape == MotionShape::half_cosine) load = load_in_waves(push, impact, size.downswing_s);
        truth.struck = plan_.practice_swings <= 0.0 || !draw_.chance(plan_.practice_swings);
        if (plan_.strike_n > 0.0 && truth.struck) load = with_strike(load, impact);
        const auto forward = [=](double t) {
            return forward_back * minimum_jerk((t - motion.takeaway_s) / size.backswing_s) +
                   (forward_end - forward_back) *
                       minimum_jerk((t - motion.takeaway_s - size.backswing_s) / (size.downswing_s + 0.1));
        };
        const double begin_s = track_.now_s();
        const std::size_t begin = track_.now();
        track_.piece(motion.rest_s + hold, motion.share, load, forward);
        if (plan_.with_trigger && truth.struck &&
            (plan_.triggers_missing <= 0.0 || !draw_.chance(plan_.triggers_missing))) {
            truth.triggered = true;
            speak(begin + static_cast<std::size_t>(std::ceil(impact * plan_.rate_hz)));
        }
        truth.takeaway_s = begin_s + motion.takeaway_s;
        truth.impact_s = begin_s + impact;
        truth.finish_s = begin_s + motion.rest_s;
        swings_.push_back(truth);
        const double from = forward_end;
        const double goal = draw_(0.48, 0.56);
        const double back_s = draw_(0.6, 1.5);
        const double level = track_.level;
        track_.piece(
            back_s, [=](double t) { return level + (goal - level) * minimum_jerk(t / back_s); },
            [](double) { return 1.0; }, [=](double t) { return from * (1.0 - minimum_jerk(t / back_s)); });
    }

    /// Vertical load from the rise and fall of the body's centre of mass, so that the momentum closes: a dip
    /// before the push, the push before the strike, unloading through it.
    Curve load_of_a_body(double push, double impact) {
        const double width = draw_(0.075, 0.12);
        const double middle = impact - draw_(0.07, 0.13);
        const double late = draw_(0.25, 0.6);
        const double late_middle = middle + draw_(1.3, 1.8) * width;
        const auto second_derivative = [](double u) { return (1.0 - u * u) * bell(u); };
        return [=](double t) {
            return 1.0 + push * second_derivative((t - middle) / width) -
                   late * push * second_derivative((t - late_middle) / width);
        };
    }

    /// Vertical load as one wave after the other: a dip as the return begins, the push, the unloading through
    /// the strike, and a second, smaller push as the body comes up.
    Curve load_in_waves(double push, double impact, double downswing_s) {
        const double push_s = draw_(0.16, 0.24);
        const double over = impact + draw_(-0.06, 0.0);
        const double dip_s = std::min(downswing_s, draw_(0.12, 0.2));
        const double sinks_s = draw_(0.14, 0.22);
        const double sinks = draw_(0.5, 0.9);
        const double dip = draw_(0.1, 0.3);
        const auto wave = [](double t, double lasts) {
            return t > 0.0 && t < lasts ? std::pow(std::sin(pi * t / lasts), 2.0) : 0.0;
        };
        return [=](double t) {
            return 1.0 - dip * push * wave(t - (over - push_s - 0.7 * dip_s), dip_s) +
                   push * wave(t - (over - push_s), push_s) - sinks * push * wave(t - over, sinks_s) +
                   0.15 * push * wave(t - (over + sinks_s), 0.25);
        };
    }

    /// A strike jolts the body for a moment; the jolt rings and dies away, late by the way through the body.
    Curve with_strike(const Curve& load, double impact) {
        const double size = plan_.strike_n * draw_(0.6, 1.4) / (plan_.mass_kg * standard_gravity_m_s2);
        const double frequency = draw_(28.0, 55.0);
        const double dies_s = draw_(0.02, 0.04);
        const double late_s = draw_(0.004, 0.012);
        return [=](double t) {
            const double since = t - impact - late_s;
            if (since < 0.0) return load(t);
            return load(t) + size * std::exp(-since / dies_s) * std::sin(2.0 * pi * frequency * since);
        };
    }

    /// What the events mean, from the shares that came about.
    void complete(TrueSwing& swing, const GeneratedLesson& lesson) const {
        const auto at = [&](double time_s) {
            return std::min(lesson.true_share.size() - 1,
                            static_cast<std::size_t>(std::max(0.0, std::round(time_s * plan_.rate_hz))));
        };
        const auto place = [](const std::vector<double>& column, std::size_t i) {
            return column.begin() + static_cast<std::ptrdiff_t>(i);
        };
        const std::size_t takeaway = at(swing.takeaway_s);
        const std::size_t impact = at(swing.impact_s);
        const auto lowest = std::min_element(place(track_.share, takeaway), place(track_.share, impact + 1));
        auto last_lowest = lowest;
        while (last_lowest + 1 < place(track_.share, impact + 1) && *(last_lowest + 1) <= *lowest + 1e-9)
            ++last_lowest;
        swing.turnaround_s = static_cast<double>(lowest - track_.share.begin()) / plan_.rate_hz;
        swing.turnaround_ends_s = static_cast<double>(last_lowest - track_.share.begin()) / plan_.rate_hz;
        swing.lowest_share =
            *std::min_element(place(lesson.true_share, takeaway), place(lesson.true_share, impact + 1));
        swing.impact_share = lesson.true_share[impact];
        const auto mean_of = [&](double from_s, double to_s) {
            double sum = 0.0;
            for (std::size_t i = at(from_s); i < at(to_s); ++i) sum += lesson.true_share[i];
            return sum / static_cast<double>(std::max<std::size_t>(1, at(to_s) - at(from_s)));
        };
        swing.address_share = mean_of(swing.takeaway_s - 0.6, swing.takeaway_s - 0.1);
        swing.finish_share = mean_of(swing.finish_s, swing.finish_s + 0.3);
    }

    LessonPlan plan_;
    Draws draw_;
    LessonTrack track_;
    std::vector<TrueSwing> swings_;
    std::vector<Distraction> distractions_;
};

}  // namespace

GeneratedLesson generate_lesson(const LessonPlan& plan) {
    return LessonWriter(plan).write();
}

}  // namespace footing::testing
