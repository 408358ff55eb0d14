#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "tests/support/motion_shapes.h"

namespace footing::testing {

/// A lesson without noise, written piece by piece: lead share, load in body weights and forward CoP.
struct LessonTrack {
    double rate_hz = 1000.0;
    double level = 0.5;  ///< share at which the golfer stands
    std::vector<double> share;
    std::vector<double> load_bw;
    std::vector<double> forward_m;
    std::vector<bool> stands;
    std::vector<std::uint8_t> trigger;

    [[nodiscard]] std::size_t now() const { return share.size(); }
    [[nodiscard]] double now_s() const { return static_cast<double>(now()) / rate_hz; }

    void piece(double seconds, const Curve& share_of, const Curve& load_of, const Curve& forward_of,
               bool standing = true);
    void empty(double seconds);
    void stand(double seconds);
    void settle_to(double goal, double seconds);
    void step_on(Draws& draw);
    void step_off(Draws& draw);
};

}  // namespace footing::testing
