#pragma once

#include <functional>
#include <random>

#include "tests/support/swing_generator.h"

namespace footing::testing {

/// A made-up lesson draws everything from here, in a fixed order, so that a seed is a lesson.
class Draws {
  public:
    explicit Draws(std::uint64_t seed) : engine_(seed) {}
    double operator()(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(engine_);
    }
    bool chance(double probability) { return (*this)(0.0, 1.0) < probability; }
    std::mt19937_64& engine() { return engine_; }

  private:
    std::mt19937_64 engine_;
};

/// A value over the seconds from the start of a piece of a lesson.
using Curve = std::function<double(double)>;

[[nodiscard]] double minimum_jerk(double part);  ///< 0 to 1 over 0 to 1 (Flash & Hogan 1985)
[[nodiscard]] double bell(double u);             ///< exp(-u^2/2)

/// What a swing's share is to do, before a shape is given to it. Shares as fractions.
struct SwingSize {
    double address = 0.5;
    double back = 0.1;       ///< from the address to the lowest
    double end = 0.9;        ///< held at the finish
    double overshoot = 0.0;  ///< beyond the end, before it is held
    double backswing_s = 0.7;
    double downswing_s = 0.28;
    double follow_s = 0.4;
};

/// The share of one swing; times from the start of the piece.
struct ShareMotion {
    Curve share;
    double takeaway_s = 0.0;
    double impact_s = 0.0;
    double rest_s = 0.0;  ///< from here on the finish is held
};

[[nodiscard]] ShareMotion share_motion(MotionShape shape, const SwingSize& size, double rate_hz, Draws& draw);

}  // namespace footing::testing
