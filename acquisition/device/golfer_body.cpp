#include "acquisition/device/golfer_body.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "acquisition/device/golfer_chance.h"

namespace footing {

namespace {

// How far the pressure can move within a foot, from its middle.
constexpr double most_heel_m = -0.085;
constexpr double most_toe_m = 0.085;
constexpr double most_roll_m = 0.012;

/// The blow of the club on ball and turf, as it reaches the ground through the legs: part of the body's
/// weight.
double strike_size(SwingLength length) {
    switch (length) {
        case SwingLength::half:
            return 0.010;
        case SwingLength::three_quarter:
            return 0.014;
        case SwingLength::full:
            break;
    }
    return 0.018;
}

constexpr double strike_hz = 32.0;
constexpr double strike_decay_s = 0.025;
constexpr double breath_m = 0.0008;
constexpr double heart_n = 0.25;

}  // namespace

GolferBody::GolferBody(const GolferStyle& style, GolferScript script, std::uint64_t seed)
    : style_(style), script_(std::move(script)) {
    Chance chance(seed ^ 0x424f4459ULL);
    sway_along_ = Unrest(style.unrest_m, 0.07, 0.2, 1.3, 14, chance.number());
    sway_ahead_ = Unrest(1.3 * style.unrest_m, 0.07, 0.2, 1.3, 14, chance.number());
    tremor_ = Unrest(0.12 * style.unrest_m, 3.0, 4.0, 9.0, 6, chance.number());
    breath_hz_ = chance.between(0.2, 0.33);
    heart_hz_ = chance.between(0.9, 1.4);
}

GolferBody::Mass GolferBody::mass_on_purpose(double time_s) const {
    return {script_.along.at(time_s), script_.ahead.at(time_s), script_.up.at(time_s)};
}

GroundLoad GolferBody::on_purpose(double time_s) const {
    return ground_under(mass_on_purpose(time_s), time_s);
}

GroundLoad GolferBody::at(double time_s) const {
    Mass mass = mass_on_purpose(time_s);
    const auto add = [](Motion& to, const Motion& more) {
        to.position += more.position;
        to.acceleration += more.acceleration;
    };
    add(mass.along, sway_along_.at(time_s));
    add(mass.ahead, sway_ahead_.at(time_s));
    // A tremor moves the pressure under the feet, too fast for the mass to follow.
    mass.along.position += tremor_.at(time_s).position;

    const double breath = 2.0 * std::numbers::pi * breath_hz_;
    const double lift = breath_m * std::sin(breath * time_s);
    add(mass.up, {lift, -lift * breath * breath});
    mass.up.acceleration += heart_n / style_.mass_kg * std::sin(2.0 * std::numbers::pi * heart_hz_ * time_s);

    const auto after =
        std::upper_bound(script_.swings.begin(), script_.swings.end(), time_s,
                         [](double time, const ScriptedSwing& swing) { return time < swing.impact_s; });
    if (after != script_.swings.begin()) {
        const ScriptedSwing& swing = *std::prev(after);
        const double since = time_s - swing.impact_s;
        if (swing.with_ball && since < 10.0 * strike_decay_s) {
            const double ripple = strike_size(swing.length) * std::exp(-since / strike_decay_s) *
                                  std::sin(2.0 * std::numbers::pi * strike_hz * since);
            mass.up.acceleration += standard_gravity_m_s2 * ripple;
            mass.along.position += 0.1 * ripple;
        }
    }
    return ground_under(mass, time_s);
}

GroundLoad GolferBody::ground_under(const Mass& mass, double time_s) const {
    const double weight_rate = standard_gravity_m_s2 + mass.up.acceleration;
    const double first = std::clamp(script_.first_support.at(time_s).position, 0.0, 1.0);
    const double second = std::clamp(script_.second_support.at(time_s).position, 0.0, 1.0);
    if (first <= 0.0 || weight_rate <= 0.0) return {{0.0, left_foot()}, {0.0, right_foot()}};

    const double lever = (1.0 - style_.turn_share) * (style_.mass_height_m + mass.up.position) / weight_rate;
    const double cop_along = mass.along.position - lever * mass.along.acceleration;
    const double cop_ahead = mass.ahead.position - lever * mass.ahead.acceleration;

    const double half_width = style_.stance_half_width_m;
    const double lead_roll = std::clamp(0.1 * (cop_along - 0.5 * half_width), -most_roll_m, most_roll_m);
    const double trail_roll = std::clamp(0.1 * (cop_along + 0.5 * half_width), -most_roll_m, most_roll_m);
    const double lead_along = half_width + lead_roll;
    const double trail_along = -half_width + trail_roll;
    const double balance = (cop_along - trail_along) / (lead_along - trail_along);
    const double lead_part = second * std::clamp(balance, 0.0, 1.0);

    const double total_n = first * style_.mass_kg * weight_rate;
    const double difference = script_.toe_difference.at(time_s).position;
    const double lead_ahead = std::clamp(cop_ahead + difference * (1.0 - lead_part), most_heel_m, most_toe_m);
    const double trail_ahead = std::clamp(cop_ahead - difference * lead_part, most_heel_m, most_toe_m);

    // The plate frame's x is to the golfer's right; a right-handed golfer's target is to the left.
    const double to_right = style_.hand == Hand::right ? -1.0 : 1.0;
    const FootLoad lead{total_n * lead_part, {to_right * lead_along, lead_ahead}};
    const FootLoad trail{total_n * (1.0 - lead_part), {to_right * trail_along, trail_ahead}};
    return style_.hand == Hand::right ? GroundLoad{lead, trail} : GroundLoad{trail, lead};
}

std::optional<double> GolferBody::lead_share(const GroundLoad& ground) const {
    const double total = ground.total_n();
    if (total < 0.1 * style_.mass_kg * standard_gravity_m_s2) return std::nullopt;
    return (style_.hand == Hand::right ? ground.left.load_n : ground.right.load_n) / total;
}

PointM GolferBody::left_foot() const {
    return {-style_.stance_half_width_m, 0.0};
}
PointM GolferBody::right_foot() const {
    return {style_.stance_half_width_m, 0.0};
}

}  // namespace footing
