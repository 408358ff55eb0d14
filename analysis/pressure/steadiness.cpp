#include "analysis/pressure/steadiness.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <unsupported/Eigen/FFT>

#include "analysis/pressure/trace_stretch.h"
#include "analysis/statistics/distributions.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr double cm_per_metre = 100.0;
constexpr std::size_t fewest_samples = 16;

Problem too_short(std::size_t samples) {
    return {ProblemKind::bad_input, "steadiness",
            "only " + std::to_string(samples) + " samples of quiet standing, at least " +
                std::to_string(fewest_samples) + " are needed",
            "choose a longer part of the recording"};
}

double covariance(std::span<const double> x, std::span<const double> y) {
    const double mean_x = mean(x);
    const double mean_y = mean(y);
    double sum = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) sum += (x[i] - mean_x) * (y[i] - mean_y);
    return sum / static_cast<double>(x.size() - 1);
}

double root_mean_square_about_mean(std::span<const double> x) {
    return std::sqrt(covariance(x, x) * static_cast<double>(x.size() - 1) / static_cast<double>(x.size()));
}

double range(std::span<const double> x) {
    const auto [lowest, highest] = std::ranges::minmax(x);
    return highest - lowest;
}

/// Mean frequency of one axis, by trapezia, and its weight: the plain sum of the bins.
struct AxisFrequency {
    double mean_hz = 0.0;
    double weight = 0.0;
};

AxisFrequency axis_frequency(std::span<const double> samples, double rate_hz) {
    const std::size_t segment = samples.size() / 2;
    const Spectrum spectrum = welch_spectrum(samples, rate_hz, segment, segment / 2);
    double moment = 0.0;
    double area = 0.0;
    AxisFrequency result;
    for (std::size_t i = 0; i < spectrum.density.size(); ++i) {
        const bool at_end = i == 0 || i + 1 == spectrum.density.size();
        const double part = (at_end ? 0.5 : 1.0) * spectrum.density[i];
        moment += part * static_cast<double>(i) * spectrum.frequency_step_hz;
        area += part;
        result.weight += spectrum.density[i];
    }
    result.mean_hz = area > 0.0 ? moment / area : 0.0;
    return result;
}

}  // namespace

Spectrum welch_spectrum(std::span<const double> samples, double rate_hz, std::size_t segment,
                        std::size_t overlap) {
    Spectrum spectrum;
    if (segment < 2 || overlap >= segment || samples.size() < segment) return spectrum;
    std::vector<double> window(segment);
    double window_power = 0.0;
    for (std::size_t i = 0; i < segment; ++i) {
        window[i] = 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * static_cast<double>(i) /
                                         static_cast<double>(segment));
        window_power += window[i] * window[i];
    }
    const std::size_t bins = segment / 2 + 1;
    spectrum.frequency_step_hz = rate_hz / static_cast<double>(segment);
    spectrum.density.assign(bins, 0.0);
    Eigen::FFT<double> transform;
    std::vector<std::complex<double>> piece(segment);
    std::vector<std::complex<double>> transformed(segment);
    std::size_t segments = 0;
    for (std::size_t begin = 0; begin + segment <= samples.size(); begin += segment - overlap) {
        const std::span<const double> part = samples.subspan(begin, segment);
        const double level = mean(part);
        for (std::size_t i = 0; i < segment; ++i) piece[i] = window[i] * (part[i] - level);
        transform.fwd(transformed, piece);
        for (std::size_t i = 0; i < bins; ++i) spectrum.density[i] += std::norm(transformed[i]);
        ++segments;
    }
    for (std::size_t i = 0; i < bins; ++i) {
        const bool has_mirror = i > 0 && !(segment % 2 == 0 && i == bins - 1);
        spectrum.density[i] *=
            (has_mirror ? 2.0 : 1.0) / (rate_hz * window_power * static_cast<double>(segments));
    }
    return spectrum;
}

Result<Steadiness> steadiness(std::span<const double> x_m, std::span<const double> y_m, double rate_hz) {
    const std::size_t n = std::min(x_m.size(), y_m.size());
    if (n < fewest_samples) return too_short(n);
    std::vector<double> x(n);
    std::vector<double> y(n);
    for (std::size_t i = 0; i < n; ++i) {
        if (std::isnan(x_m[i]) || std::isnan(y_m[i]))
            return Problem{ProblemKind::bad_input, "steadiness",
                           "the centre of pressure is not known for a part of the time (nobody stands there, "
                           "or the table has no CoP)",
                           "choose a part in which somebody stands still, or import the CoP columns too"};
        x[i] = x_m[i] * cm_per_metre;
        y[i] = y_m[i] * cm_per_metre;
    }

    Steadiness result;
    const double count = static_cast<double>(n);
    result.samples = n;
    result.rate_hz = rate_hz;
    result.duration_s = count / rate_hz;
    for (std::size_t i = 1; i < n; ++i) result.path_cm += std::hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    result.velocity_cm_s = result.path_cm / result.duration_s;

    const double xx = covariance(x, x);
    const double yy = covariance(y, y);
    const double xy = covariance(x, y);
    const double axes = std::sqrt(std::max(0.0, xx * yy - xy * xy));
    result.area_cm2 = std::numbers::pi * axes * f_quantile(0.95, 2.0, count - 2.0) * 2.0 * (count - 1.0) *
                      (count + 1.0) / (count * (count - 2.0));

    const AxisFrequency along_x = axis_frequency(x, rate_hz);
    const AxisFrequency along_y = axis_frequency(y, rate_hz);
    const double weight = along_x.weight + along_y.weight;
    result.mean_frequency_hz =
        weight > 0.0 ? (along_x.mean_hz * along_x.weight + along_y.mean_hz * along_y.weight) / weight : 0.0;

    result.rms_x_cm = root_mean_square_about_mean(x);
    result.rms_y_cm = root_mean_square_about_mean(y);
    result.range_x_cm = range(x);
    result.range_y_cm = range(y);
    return result;
}

Result<Steadiness> steadiness(const LoadTrace& trace, double from_s, double to_s) {
    const std::size_t begin = edge_at(trace, from_s);
    const std::size_t end = std::max(begin, edge_at(trace, to_s));
    const auto part = [&](const std::vector<double>& column) {
        return std::span(column).subspan(begin, end - begin);
    };
    Result<Steadiness> result = steadiness(part(trace.cop_x_m), part(trace.cop_y_m), trace.rate_hz);
    if (!result.ok()) return result;
    RunningSummary left_share;
    for (std::size_t i = begin; i < end; ++i) {
        const double both_n = trace.left_n[i] + trace.right_n[i];
        if (both_n > 0.0) left_share.add(trace.left_n[i] / both_n);
    }
    if (left_share.count() == end - begin) result.value().left_share = left_share.mean();
    return result;
}

}  // namespace footing
