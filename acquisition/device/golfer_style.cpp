#include "acquisition/device/golfer_style.h"

#include "acquisition/device/golfer_chance.h"

namespace footing {

GolferStyle random_style(std::uint64_t seed) {
    Chance chance(seed ^ 0x5354594c45ULL);
    GolferStyle style;
    style.hand = chance.happens(0.12) ? Hand::left : Hand::right;
    style.mass_kg = chance.between(45.0, 130.0);
    style.mass_height_m = chance.between(0.82, 1.06);
    style.stance_half_width_m = chance.between(0.15, 0.22);
    style.address_share = chance.between(0.70, 0.80);
    style.address_spread = chance.between(0.006, 0.02);
    style.shift_scale = chance.between(0.7, 1.4);
    style.sway_chance = chance.between(0.0, 0.4);
    style.turn_share = chance.between(0.86, 0.94);
    style.drive = chance.between(0.8, 1.25);
    style.tempo_scale = chance.between(0.95, 1.05);
    style.unrest_m = chance.between(0.0008, 0.0025);
    return style;
}

}  // namespace footing
