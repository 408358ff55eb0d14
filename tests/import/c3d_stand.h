#pragma once

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "tests/import/c3d_sample.h"

namespace footing::test {

/// A golfer who stands on two plates in some laboratory: what the golfer does is given in the golfer's frame
/// (right, ahead, up), what the file holds follows by statics.
struct C3dStand {
    // The golfer's axes in the laboratory.
    C3dVector right{1, 0, 0};
    C3dVector ahead{0, 1, 0};
    C3dVector up{0, 0, 1};
    C3dVector middle_m{0.3, -0.2, 0.1};  ///< between the plates, in the laboratory
    double half_distance_m = 0.25;
    enum class Convention { reaction, action } convention = Convention::reaction;

    /// What one foot feels, about its plate's centre.
    struct Foot {
        C3dVector force_n{};
        double cop_x_m = 0.0;
        double cop_y_m = 0.0;
        double twist_n_m = 0.0;
    };

    /// Load shifts from the left foot to the right one and on; of sample `i`, `foot` 0: left.
    [[nodiscard]] static Foot foot_at(std::size_t i, int foot) {
        const double phase = 0.02 * static_cast<double>(i);
        const double share = 0.5 + (foot == 0 ? 0.3 : -0.3) * std::sin(phase);
        return {{20.0 * std::sin(3.0 * phase), 15.0 * std::cos(2.0 * phase), 800.0 * share},
                0.02 * std::sin(phase) + 0.01 * foot,
                0.05 * std::cos(phase) - 0.02 * foot,
                1.5 * std::sin(phase)};
    }

    [[nodiscard]] C3dVector in_lab(const C3dVector& golfer) const {
        return golfer[0] * right + golfer[1] * ahead + golfer[2] * up;
    }

    /// A plate whose own x points to `own_x` in the golfer's frame (a level axis); z into the floor.
    [[nodiscard]] C3dSample::PlateSample plate(int type, int foot, const C3dVector& own_x) const {
        C3dSample::PlateSample plate;
        plate.type = type;
        const C3dVector x = in_lab(own_x);
        const C3dVector y = cross(-1.0 * up, x);
        const C3dVector centre = middle_m + (foot == 0 ? -half_distance_m : half_distance_m) * right;
        plate.corners_m = corners_of(centre, x, y, 0.46, 0.50);
        plate.origin_m = type == 3 ? C3dVector{0.12, 0.2, -0.048} : C3dVector{0.001, -0.002, -0.04};
        if (type == 4) {
            // Cross-talk that differs both ways, so that a matrix read by rows instead of columns is seen.
            for (std::size_t i = 0; i < 36; ++i)
                plate.matrix.push_back(0.002 * static_cast<double>(i) - 0.03);
            const double diagonal[6] = {2.9, 2.95, 11.5, 2191.0, 1977.0, 955.0};
            for (std::size_t i = 0; i < 6; ++i) plate.matrix[7 * i] = diagonal[i];
        }
        return plate;
    }

    /// Appends the channels of a plate over time.
    void record(C3dSample& file, const C3dSample::PlateSample& plate, int foot, std::size_t samples) const {
        const C3dVector x = direction(plate.corners_m[0] - plate.corners_m[1]);
        const C3dVector y = direction(plate.corners_m[0] - plate.corners_m[3]);
        const C3dVector z = cross(x, y);
        const auto in_plate = [&](const C3dVector& golfer) {
            const C3dVector lab = in_lab(golfer);
            return C3dVector{dot(lab, x), dot(lab, y), dot(lab, z)};
        };
        const double sign = convention == Convention::reaction ? 1.0 : -1.0;
        std::vector<std::vector<double>> columns;
        for (std::size_t i = 0; i < samples; ++i) {
            const Foot feels = foot_at(i, foot);
            const auto values = channels_under(plate, sign * in_plate(feels.force_n),
                                               in_plate({feels.cop_x_m, feels.cop_y_m, 0.0}),
                                               sign * -feels.twist_n_m, plate.type == 3 ? 1.0 : file.unit_m);
            columns.resize(values.size());
            for (std::size_t k = 0; k < values.size(); ++k) columns[k].push_back(values[k]);
        }
        for (auto& column : columns) file.channels.push_back(std::move(column));
        file.plates.push_back(plate);
    }
};

}  // namespace footing::test
