#include "acquisition/import/csv_time_base.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

constexpr double most_off_grid = 0.2;  ///< of a step

/// A whole number where the printing of times makes it look a little less.
double without_rounding(double rate_hz) {
    const double whole = std::round(rate_hz);
    return whole > 0.0 && std::abs(rate_hz - whole) < 1e-6 * whole ? whole : rate_hz;
}

double median_step(const std::vector<double>& times_s) {
    std::vector<double> steps(times_s.size() - 1);
    for (std::size_t i = 0; i < steps.size(); ++i) steps[i] = times_s[i + 1] - times_s[i];
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

/// The mean of the steps near the median: times printed with few digits jitter about it.
double usual_step(const std::vector<double>& times_s) {
    const double median = median_step(times_s);
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i + 1 < times_s.size(); ++i) {
        const double step = times_s[i + 1] - times_s[i];
        if (step > 0.5 * median && step < 1.5 * median) {
            sum += step;
            count += 1.0;
        }
    }
    return sum / count;
}

}  // namespace

std::uint64_t csv_device_time_us(const CsvTimeBase& base, double time_s) {
    return static_cast<std::uint64_t>(std::llround((time_s - base.first_s) * 1e6));
}

CsvTimeBase csv_time_base(const std::vector<double>& times_s) {
    CsvTimeBase base;
    base.first_s = std::min(0.0, times_s.front());
    base.counters.reserve(times_s.size());
    base.counters.push_back(0);
    const double usual = usual_step(times_s);
    std::size_t single_steps = 0;
    for (std::size_t i = 1; i < times_s.size(); ++i) {
        const double steps = (times_s[i] - times_s[i - 1]) / usual;
        const double whole = std::max(1.0, std::round(steps));
        if (std::abs(steps - whole) > most_off_grid) base.spacing = CsvTimeBase::Spacing::uneven;
        if (whole == 1.0) ++single_steps;
        base.counters.push_back(base.counters.back() + static_cast<std::uint64_t>(whole));
    }
    const double duration = times_s.back() - times_s.front();
    if (2 * single_steps < times_s.size() - 1) base.spacing = CsvTimeBase::Spacing::uneven;
    if (base.spacing == CsvTimeBase::Spacing::uneven) {
        for (std::size_t i = 0; i < base.counters.size(); ++i) base.counters[i] = i;
    }
    base.rate_hz = without_rounding(static_cast<double>(base.counters.back()) / duration);
    for (std::size_t i = 1; i < base.counters.size(); ++i) {
        const std::uint64_t missing = base.counters[i] - base.counters[i - 1] - 1;
        if (missing == 0) continue;
        base.rows_missing += missing;
        base.gaps.push_back({base.counters[i - 1], missing, csv_device_time_us(base, times_s[i - 1]),
                             csv_device_time_us(base, times_s[i])});
    }
    return base;
}

}  // namespace footing
