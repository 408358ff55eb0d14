#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "acquisition/frame/units.h"

namespace footing {

/// Marks a number that is not known: no centre of pressure below the load floor, no feet on a plate alone.
inline constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
[[nodiscard]] inline bool known(double value) {
    return !std::isnan(value);
}

/// How the two feet on a mat were told apart in one frame.
enum class FeetTold : std::uint8_t {
    areas,      ///< each by the area that it touches
    nobody,     ///< too little load to look for feet
    one_area,   ///< only one area bears enough to be a foot: parted at the midline
    in_a_line,  ///< two areas, but neither is left of the other: parted at the midline
};

/// One foot on a mat, from the area that it touches. NaN: not known.
struct FootOnMatNow {
    float toe_share = static_cast<float>(unknown);  ///< load before the middle of the foot's length, 0 to 1
    float outside_share = static_cast<float>(unknown);  ///< load on the outer side of the foot's line, 0 to 1
    float toe_out_rad = static_cast<float>(unknown);    ///< by how much the toes point outwards
};

/// What a mat shows beyond loads and centres of pressure.
struct MatReading {
    FootOnMatNow left;
    FootOnMatNow right;
    float stance_width_m = static_cast<float>(unknown);  ///< between the middles of the feet, across
    float other_n = 0.0F;       ///< load on neither foot, which is left out of everything: a club head, a bag
    std::uint16_t clipped = 0;  ///< elements at the end of their range: they may bear more
    FeetTold told = FeetTold::nobody;
};

/// What one frame says of the ground: vertical loads and where they act.
struct LoadSample {
    double total_n = 0.0;
    double left_n = unknown;  ///< unknown when the feet cannot be told apart
    double right_n = unknown;
    std::optional<PointM> cop;       ///< of all load, plate frame; absent below the load floor
    std::optional<PointM> left_cop;  ///< of the left foot; absent below the load floor
    std::optional<PointM> right_cop;
    std::optional<MatReading> mat;  ///< mats only
};

/// A recording as loads over time, column by column; every column has one entry a sampling instant, at even
/// spacing. Frames that were lost are bridged by a straight line and marked in `bridged`. Times are seconds
/// from the first frame.
struct LoadTrace {
    double rate_hz = 0.0;
    std::vector<double> time_s;
    std::vector<double> total_n;
    std::vector<double> left_n;  ///< NaN when the feet cannot be told apart
    std::vector<double> right_n;
    std::vector<double> cop_x_m;  ///< plate frame; NaN below the load floor
    std::vector<double> cop_y_m;
    std::vector<double> left_x_m;
    std::vector<double> left_y_m;
    std::vector<double> right_x_m;
    std::vector<double> right_y_m;
    std::vector<std::uint8_t> trigger;  ///< 1 while the trigger input is set
    std::vector<std::uint8_t> bridged;  ///< 1 where the values are a bridge: the frame was lost or impossible
    std::vector<MatReading> mat;        ///< empty where the feet did not stand on a mat

    [[nodiscard]] std::size_t size() const { return time_s.size(); }
};

}  // namespace footing
