#include "analysis/swing/smoothness.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <unsupported/Eigen/FFT>
#include <vector>

namespace footing {

namespace {
constexpr double not_known = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t fewest_samples = 8;
constexpr int padding_doublings = 4;
constexpr double least_amplitude = 0.05;
}  // namespace

double spectral_arc_length(std::span<const double> speed, double rate_hz, double cutoff_hz) {
    if (speed.size() < fewest_samples) return not_known;
    std::size_t padded = 1;
    while (padded < speed.size()) padded *= 2;
    padded <<= padding_doublings;
    std::vector<std::complex<double>> in(padded);
    std::copy(speed.begin(), speed.end(), in.begin());
    std::vector<std::complex<double>> out(padded);
    Eigen::FFT<double> transform;
    transform.fwd(out, in);

    const double step_hz = rate_hz / static_cast<double>(padded);
    std::vector<double> magnitude;
    double largest = 0.0;
    for (std::size_t i = 0; i < padded / 2 + 1; ++i) largest = std::max(largest, std::abs(out[i]));
    if (!(largest > 0.0)) return not_known;
    std::size_t last = 0;
    for (std::size_t i = 0; i < padded && static_cast<double>(i) * step_hz <= cutoff_hz; ++i) {
        magnitude.push_back(std::abs(out[i]) / largest);
        if (magnitude.back() >= least_amplitude) last = i;
    }
    if (last == 0) return not_known;
    const double step = 1.0 / static_cast<double>(last);
    double length = 0.0;
    for (std::size_t i = 1; i <= last; ++i) length += std::hypot(step, magnitude[i] - magnitude[i - 1]);
    return -length;
}

double log_dimensionless_jerk(std::span<const double> speed, double rate_hz) {
    if (speed.size() < fewest_samples) return not_known;
    const double dt = 1.0 / rate_hz;
    const double peak = std::abs(*std::max_element(
        speed.begin(), speed.end(), [](double a, double b) { return std::abs(a) < std::abs(b); }));
    const double duration_s = static_cast<double>(speed.size()) * dt;
    double sum = 0.0;
    for (std::size_t i = 2; i < speed.size(); ++i) {
        const double jerk = (speed[i] - 2.0 * speed[i - 1] + speed[i - 2]) / (dt * dt);
        sum += jerk * jerk * dt;
    }
    const double dimensionless = duration_s * duration_s * duration_s / (peak * peak) * sum;
    return peak > 0.0 && dimensionless > 0.0 ? -std::log(dimensionless) : not_known;
}

}  // namespace footing
