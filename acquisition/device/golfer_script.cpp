#include "acquisition/device/golfer_script.h"

#include <algorithm>

#include "acquisition/device/golfer_chance.h"

namespace footing {

namespace {

/// What the lengths of a swing differ in. Times and shares: common practice, no source; the tempo of full
/// swings about 3:1 (Grober & Cholewicki, arXiv physics/0611291).
struct Range {
    double low;
    double high;
};
struct LengthHabits {
    Range backswing_s;
    Range tempo;
    Range back_share;    ///< how far the mass moves to the trail side, as lead share
    Range rise_share;    ///< how far beyond the address it is at impact
    Range finish_share;  ///< and how far beyond that at the finish
    double dip_m;        ///< how far the body sinks before it drives up
};
constexpr LengthHabits half_habits{{0.60, 0.70},  {2.0, 2.3},   {0.015, 0.03},
                                   {0.03, 0.055}, {0.02, 0.04}, 0.009};
constexpr LengthHabits three_quarter_habits{{0.65, 0.78}, {2.2, 2.5},   {0.03, 0.055},
                                            {0.04, 0.07}, {0.03, 0.05}, 0.018};
constexpr LengthHabits full_habits{{0.74, 0.86}, {2.8, 3.1},   {0.05, 0.085},
                                   {0.05, 0.08}, {0.04, 0.06}, 0.026};

const LengthHabits& habits_of(SwingLength length) {
    switch (length) {
        case SwingLength::half:
            return half_habits;
        case SwingLength::three_quarter:
            return three_quarter_habits;
        case SwingLength::full:
            break;
    }
    return full_habits;
}

/// Writes one lesson, keeping track of the time and of where the body is.
class Writer {
  public:
    Writer(const GolferStyle& style, std::uint64_t seed) : style_(style), chance_(seed ^ 0x534352495054ULL) {}

    GolferScript write(std::size_t swings) {
        step_on();
        rock();
        for (std::size_t i = 0; i < swings; ++i) {
            ScriptedSwing swing;
            swing.with_ball = i % 3 != 0;
            swing.length = static_cast<SwingLength>(i / 3 % 3);
            if (swing.with_ball) bend_for_ball();
            take_address();
            waggle();
            make_swing(swing);
            script_.swings.push_back(swing);
            come_back();
            if (i % 9 == 8) rock();
        }
        step_off();
        for (MotionPath* path : {&script_.along, &script_.ahead, &script_.up, &script_.toe_difference,
                                 &script_.first_support, &script_.second_support}) {
            path->seal();
        }
        return std::move(script_);
    }

  private:
    double draw(Range range) { return chance_.between(range.low, range.high); }
    void wait(double low, double high) { now_ += chance_.between(low, high); }

    /// Where the mass stands for a lead share, as long as nothing accelerates.
    [[nodiscard]] double place_of(double share) const {
        return (2.0 * share - 1.0) * style_.stance_half_width_m;
    }
    void go(MotionPath& path, double& place, double from_s, double to_s, double to) {
        path.step(from_s, to_s, to - place);
        place = to;
    }

    void step_on() {
        go(script_.along, along_, 0.0, 1.0, -style_.stance_half_width_m);
        wait(4.0, 6.0);
        script_.first_support.step(now_, now_ + 0.8, 1.0);
        script_.up.swell(now_ + 0.3, now_ + 0.9, 0.012);
        now_ += 1.0;
        script_.second_support.step(now_, now_ + 0.7, 1.0);
        go(script_.along, along_, now_ + 0.1, now_ + 1.3, place_of(chance_.between(0.48, 0.56)));
        now_ += 1.4;
        script_.on_from_s = now_;
        wait(4.0, 6.0);
    }

    void rock() {
        const double duration = chance_.between(4.0, 7.0);
        script_.along.wave(now_, now_ + duration, chance_.between(0.02, 0.045), chance_.between(0.3, 0.5));
        script_.ahead.wave(now_, now_ + duration, chance_.between(0.005, 0.015), chance_.between(0.3, 0.5));
        now_ += duration;
        wait(1.0, 2.0);
    }

    void bend_for_ball() {
        const double duration = chance_.between(2.4, 3.4);
        script_.ahead.swell(now_, now_ + duration, chance_.between(0.02, 0.04));
        script_.up.swell(now_, now_ + duration, -chance_.between(0.15, 0.30));
        script_.along.swell(now_ + 0.1, now_ + duration - 0.1, chance_.between(-0.05, 0.05));
        now_ += duration;
        wait(0.6, 1.5);
    }

    void take_address() {
        address_share_ =
            std::clamp(style_.address_share + style_.address_spread * chance_.normal(), 0.55, 0.86);
        const double duration = chance_.between(1.0, 1.6);
        go(script_.along, along_, now_, now_ + duration, place_of(address_share_));
        go(script_.ahead, ahead_, now_, now_ + duration, chance_.between(-0.01, 0.012));
        go(script_.toe_difference, toe_difference_, now_, now_ + duration, chance_.between(-0.012, 0.012));
        now_ += duration;
        wait(0.2, 0.6);
    }

    void waggle() {
        const int times = chance_.happens(0.8) ? 1 + static_cast<int>(chance_.between(0.0, 2.0)) : 0;
        for (int i = 0; i < times; ++i) {
            const double duration = chance_.between(0.9, 1.5);
            script_.along.wave(now_, now_ + duration, chance_.between(0.003, 0.008),
                               chance_.between(1.1, 1.7));
            script_.ahead.wave(now_, now_ + duration, chance_.between(0.002, 0.005),
                               chance_.between(1.1, 1.7));
            now_ += duration;
            wait(0.0, 0.3);
        }
        wait(0.1, 0.3);
    }

    void make_swing(ScriptedSwing& swing) {
        const LengthHabits& habits = habits_of(swing.length);
        const double backswing = draw(habits.backswing_s) * style_.tempo_scale;
        swing.quiet_from_s = now_;
        swing.takeaway_s = now_ + chance_.between(0.7, 1.9);
        swing.top_s = swing.takeaway_s + backswing;
        swing.impact_s = swing.top_s + backswing / draw(habits.tempo);
        swing.finish_s = swing.impact_s + chance_.between(0.6, 0.9);
        swing.held_to_s = swing.finish_s + chance_.between(1.2, 2.6);

        const double sway = chance_.happens(style_.sway_chance) ? chance_.between(0.08, 0.14) : 0.0;
        const double back_share = draw(habits.back_share) * style_.shift_scale + sway;
        const double impact_share = std::min(address_share_ + draw(habits.rise_share), 0.90);
        const double finish_share = std::min(impact_share + draw(habits.finish_share), 0.94);
        // The way back to the lead side begins before the backswing ends, and runs on past the ball.
        const double turn_s = swing.top_s - chance_.between(0.06, 0.16) * backswing;
        go(script_.along, along_, swing.takeaway_s, swing.top_s, place_of(address_share_ - back_share));
        go(script_.along, along_, turn_s, swing.impact_s + 0.12, place_of(impact_share));
        go(script_.along, along_, swing.impact_s, swing.finish_s, place_of(finish_share));

        const double dip = habits.dip_m * style_.drive * chance_.between(0.85, 1.15);
        script_.up.step(swing.takeaway_s + 0.35 * backswing, swing.top_s + 0.05, -dip);
        script_.up.step(swing.top_s + 0.02, swing.impact_s + 0.10, 1.5 * dip);
        script_.up.step(swing.impact_s + 0.08, swing.finish_s, -0.5 * dip);

        const double reach = chance_.between(0.4, 1.0) * (0.5 + 0.5 * static_cast<int>(swing.length));
        go(script_.ahead, ahead_, swing.takeaway_s, swing.top_s, ahead_ - 0.008 * reach);
        go(script_.ahead, ahead_, swing.top_s - 0.05, swing.impact_s + 0.05, ahead_ + 0.014 * reach);
        go(script_.ahead, ahead_, swing.impact_s, swing.finish_s, -0.005);
        go(script_.toe_difference, toe_difference_, swing.takeaway_s, swing.top_s,
           toe_difference_ + 0.025 * reach);
        go(script_.toe_difference, toe_difference_, swing.top_s, swing.impact_s + 0.05, -0.04 * reach);
        go(script_.toe_difference, toe_difference_, swing.impact_s, swing.finish_s, -0.075 * reach);
        now_ = swing.held_to_s;
    }

    void come_back() {
        const double duration = chance_.between(1.0, 1.6);
        go(script_.along, along_, now_, now_ + duration, place_of(chance_.between(0.45, 0.58)));
        go(script_.ahead, ahead_, now_, now_ + duration, 0.0);
        go(script_.toe_difference, toe_difference_, now_, now_ + duration, 0.0);
        now_ += duration;
        wait(1.0, 2.5);
    }

    void step_off() {
        wait(1.0, 2.0);
        script_.on_to_s = now_;
        go(script_.along, along_, now_, now_ + 1.2, -style_.stance_half_width_m);
        script_.second_support.step(now_ + 0.5, now_ + 1.2, -1.0);
        script_.first_support.step(now_ + 1.4, now_ + 2.1, -1.0);
        now_ += 2.2;
        wait(3.0, 4.0);
        script_.end_s = now_;
    }

    const GolferStyle& style_;
    Chance chance_;
    GolferScript script_;
    double now_ = 0.0;
    double along_ = 0.0;
    double ahead_ = 0.0;
    double toe_difference_ = 0.0;
    double address_share_ = 0.0;
};

}  // namespace

GolferScript write_script(const GolferStyle& style, std::size_t swings, std::uint64_t seed) {
    return Writer(style, seed).write(swings);
}

}  // namespace footing
