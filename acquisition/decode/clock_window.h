#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace footing {

/// No two clocks differ by more; a steeper slope is a recording played faster or slower.
inline constexpr double most_clock_error = 0.01;

/// What one stretch of arrivals says of the clocks. `excess`: host time less device time, in nanoseconds,
/// both from the first frame of the fit.
struct ClockPoint {
    double device_ns = 0.0;     ///< in the middle of the stretch
    double least_excess = 0.0;  ///< of the frame that was least delayed, taken to the middle
    double mid_excess = 0.0;    ///< of the median frame, taken to the middle
    double frames = 0.0;
};

/// How arrivals are spread, for telling a sharp lower edge from a bell.
struct ArrivalSpread {
    double foot_ns = 0.0;        ///< from the 1 % to the 10 % quantile
    double body_ns = 0.0;        ///< from the 10 % quantile to the median
    double square_ns2 = 0.0;     ///< sum over frames of the squared distance from the stretch's mean
    double worst_late_ns = 0.0;  ///< of the last frame behind the first, by the line
    double frames = 0.0;
};

/// Collects the arrivals of one stretch of device time: a sample of all of them (Vitter 1985, algorithm R,
/// ACM TOMS 11:37) and the earliest and the latest exactly. Constant memory and time a frame; allocates
/// nothing.
class ClockWindow {
  public:
    /// `slope`: of excess over device time, as far as known.
    void begin(double device_ns, double slope);
    void take(double device_ns, double excess_ns);

    [[nodiscard]] double begins_ns() const { return begins_ns_; }
    [[nodiscard]] std::size_t frames() const { return frames_; }

    struct Summary {
        ClockPoint point;
        ArrivalSpread spread;
    };
    /// How the slope that begin() was given is to be taken: early in a fit it is only a guess, and the
    /// stretch's own slope is taken instead where that is clearly another.
    enum class Slope { known, guessed };
    /// Needs a frame at least.
    [[nodiscard]] Summary summary(Slope slope) const;

  private:
    static constexpr std::size_t most_samples = 256;
    struct Sample {
        double device_ns = 0.0;  ///< since the stretch's begin
        double excess_ns = 0.0;  ///< above that of its first frame
    };

    [[nodiscard]] double own_slope() const;

    std::array<Sample, most_samples> samples_{};
    std::size_t frames_ = 0;
    std::uint64_t chance_ = 0x9E3779B97F4A7C15ULL;
    double begins_ns_ = 0.0;
    double first_excess_ns_ = 0.0;
    double slope_ = 0.0;
    double earliest_ns_ = 0.0;  ///< excess above the first frame, less slope x time
    double latest_ns_ = 0.0;
    double mean_device_ns_ = 0.0;
    double mean_excess_ns_ = 0.0;
    double device_square_ = 0.0;
    double excess_square_ = 0.0;
    double product_ = 0.0;
};

}  // namespace footing
