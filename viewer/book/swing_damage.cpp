#include "viewer/book/swing_damage.h"

#include <fmt/format.h>

#include <cmath>

namespace footing {

namespace {

/// A number that the book holds, and between what it must lie. `or_unknown`: an infinite one says that the
/// uncertainty is not known.
struct Limits {
    const char* name;
    double least;
    double most;
    enum class Infinite { refused, or_unknown } infinite = Infinite::refused;
};

constexpr double longest_s = 1e7;  // no recording is longer

bool is_possible(double value, const Limits& limits) {
    if (limits.infinite == Limits::Infinite::or_unknown && std::isinf(value)) return value > 0.0;
    return value >= limits.least && value <= limits.most;
}

Limits share(const char* name) {
    return {name, -0.5, 1.5};
}

Limits uncertainty(const char* name) {
    return {name, 0.0, 2.0, Limits::Infinite::or_unknown};
}

}  // namespace

std::string impossible_words(const BookSwing& swing) {
    const BookFinish no_finish;
    const BookFinish& finish = swing.finish ? *swing.finish : no_finish;
    const Shot no_shot;
    const Shot& shot = swing.shot ? *swing.shot : no_shot;
    const std::pair<std::optional<double>, Limits> numbers[] = {
        {swing.from_s, {"a beginning", -longest_s, longest_s}},
        {swing.to_s, {"an end", -longest_s, longest_s}},
        {swing.strike_s, {"an impact", -longest_s, longest_s}},
        {swing.address_share, share("a lead share at address")},
        {swing.address_u, uncertainty("an uncertainty of the lead share at address")},
        {swing.lowest_share, share("a lowest lead share")},
        {swing.lowest_u, uncertainty("an uncertainty of the lowest lead share")},
        {swing.impact_share, share("a lead share at impact")},
        {swing.impact_u, uncertainty("an uncertainty of the lead share at impact")},
        {swing.backswing_s, {"a backswing", 0.0, 1000.0}},
        {swing.downswing_s, {"a downswing", 0.0, 1000.0}},
        {swing.below_floor_s, {"a time below the floor", 0.0, longest_s}},
        {swing.rhythm_percent, {"a rhythm match", -1.0, 101.0}},
        {finish.share, share("a lead share at the finish")},
        {finish.u, uncertainty("an uncertainty of the lead share at the finish")},
        {finish.held_s, {"a time of the finish", 0.0, longest_s}},
        {finish.sway_m, {"a sway of the finish", 0.0, 10.0}},
        {shot.carry_m, {"a carry", 0.0, 500.0}},
        {shot.side_m, {"a distance to the side", -500.0, 500.0}},
    };
    for (const auto& [value, limits] : numbers) {
        if (value && !is_possible(*value, limits)) return fmt::format("{} of {:g}", limits.name, *value);
    }
    return "";
}

}  // namespace footing
