#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace footing {

/// A coordinate of a moving body at one instant: metres, and metres per second squared.
struct Motion {
    double position = 0.0;
    double acceleration = 0.0;
};

/// One coordinate of a body over time, as a sum of smooth movements, each known with its second derivative,
/// so that forces follow from it without differencing.
class MotionPath {
  public:
    /// Moves by `by` between two instants and stays there: the minimum-jerk polynomial 10u^3 - 15u^4 + 6u^5
    /// (Flash & Hogan, J Neurosci 5:1688, 1985; from memory), at rest at both ends.
    void step(double from_s, double to_s, double by);

    /// There and back again, a minimum-jerk step each way.
    void swell(double from_s, double to_s, double by);

    /// A few cycles that swell and die away: by * sin^2(pi u) * sin(2 pi f (t - from)), u from 0 to 1.
    void wave(double from_s, double to_s, double by, double frequency_hz);

    /// Sorts the movements for reading; call once, after the last movement was added and before at().
    void seal();

    [[nodiscard]] Motion at(double time_s) const;

  private:
    enum class Shape { step, wave };
    struct Movement {
        Shape shape;
        double from_s;
        double to_s;
        double by;
        double frequency_hz;
    };
    [[nodiscard]] static Motion of(const Movement& movement, double time_s);

    std::vector<Movement> movements_;
    // For each whole second: which movements are under way in it, and where those before it have led.
    std::vector<std::vector<std::size_t>> under_way_;
    std::vector<double> done_before_;
};

/// Motion that goes on all the time: a sum of sines at fixed frequencies with random phases. Amplitudes fall
/// as 1/frequency above `corner_hz`, which makes it coloured noise. Zero mean; `rms` is its standard
/// deviation.
class Unrest {
  public:
    Unrest() = default;
    Unrest(double rms, double lowest_hz, double corner_hz, double highest_hz, std::size_t lines,
           std::uint64_t seed);
    [[nodiscard]] Motion at(double time_s) const;

  private:
    struct Line {
        double amplitude;
        double angular_frequency;
        double phase;
    };
    std::vector<Line> lines_;
};

}  // namespace footing
