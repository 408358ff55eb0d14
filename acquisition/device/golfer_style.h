#pragma once

#include <cstdint>

#include "acquisition/frame/swing_length.h"
#include "acquisition/frame/units.h"

namespace footing {

/// One student: a body and its habits. The defaults are a student who does what the coach asks.
struct GolferStyle {
    Hand hand = Hand::right;
    double mass_kg = 75.0;
    double mass_height_m = 0.95;        ///< of the body's centre of mass above the ground, standing
    double stance_half_width_m = 0.19;  ///< from the middle of the stance to the middle of a foot
    double address_share = 0.75;        ///< lead share at address that the student aims at
    double address_spread = 0.012;      ///< how much that differs from swing to swing (standard deviation)
    double shift_scale = 1.0;  ///< how far the body moves to the trail side and back, against the usual
    double sway_chance = 0.1;  ///< probability that a swing sways far onto the trail foot
    double turn_share =
        0.9;             ///< part of the horizontal push's moment that the turning trunk and arms take up
    double drive = 1.0;  ///< how hard the legs push off, against the usual
    double tempo_scale = 1.0;  ///< above 1: slower than the usual
    double unrest_m = 0.0015;  ///< postural sway of the centre of mass (standard deviation, each axis)
};

/// A student drawn at random, within what coaches see (common practice, no source): mass 45 to 130 kg,
/// address share 0.70 to 0.80, stance 0.30 to 0.44 m.
[[nodiscard]] GolferStyle random_style(std::uint64_t seed);

}  // namespace footing
