#pragma once

#include <cstdint>
#include <vector>

namespace footing {

/// Sizes of feet, common practice without a source: adult feet in shoes with room to spare.
struct FeetOptions {
    double element_threshold_n = 0.0;  ///< an element must bear more than this to count as touched
    double least_foot_n = 20.0;        ///< a foot that bears less is not told
    double most_length_m = 0.36;       ///< heel and forefoot within this belong to one foot
    double most_width_m = 0.15;
    std::vector<std::uint8_t> dead;  ///< 1 for elements that do not measure; shape [rows x columns], or empty
};

}  // namespace footing
