#pragma once

#include <array>
#include <cstddef>
#include <span>

namespace footing {

/// One value to fit, and how much it counts.
struct CurvePoint {
    double x = 0.0;
    double y = 0.0;
    double weight = 1.0;
};

/// A line that may bend: straight between knots.
class ClockCurve {
  public:
    static constexpr std::size_t most_knots = 9;
    /// A knot for each so many points at most, so that noise does not bend the line.
    static constexpr std::size_t points_a_piece = 64;

    /// Fits the line to points in order of x, of which some may be far off (a stretch in which the network
    /// was busy): least squares on hat functions, first with the weights of Huber (1964, Ann. Math. Statist.
    /// 35:73), then with Tukey's biweight (Beaton and Tukey 1974, Technometrics 16:147), scale from the
    /// median absolute residual. At most 1,024 points count; one point gives a level line, none zero.
    /// Allocates nothing.
    void fit(std::span<const CurvePoint> points);

    /// Beyond the ends the first or last piece goes on.
    [[nodiscard]] double at(double x) const;
    /// Of the straight line between both ends.
    [[nodiscard]] double mean_slope() const;
    /// Robust standard deviation of the points about the line (1.4826 times the median absolute residual).
    [[nodiscard]] double residual() const { return residual_; }
    [[nodiscard]] std::size_t knots() const { return knots_; }
    [[nodiscard]] double knot_x(std::size_t knot) const { return x_[knot]; }

  private:
    void place_knots(std::span<const CurvePoint> points);
    void solve(std::span<const CurvePoint> points, std::span<const double> weights);
    [[nodiscard]] std::size_t piece_of(double x) const;

    std::array<double, most_knots> x_{};
    std::array<double, most_knots> y_{};
    std::size_t knots_ = 0;
    double residual_ = 0.0;
};

}  // namespace footing
