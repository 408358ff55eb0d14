#include "analysis/pressure/centre_of_mass.h"

#include <cmath>

namespace footing {

double natural_frequency(const Pendulum& pendulum) {
    return std::sqrt(standard_gravity_m_s2 / (pendulum.inertia * pendulum.height_part * pendulum.stature_m));
}

std::vector<double> centre_of_mass_from_cop(std::span<const double> cop_m, double rate_hz,
                                            const Pendulum& pendulum) {
    // m'' = w0^2 (m - p) by Numerov's scheme, of the fourth order of the step: with k = (w0 dt)^2 / 12,
    // (1 - k) m[i-1] - (2 + 10 k) m[i] + (1 - k) m[i+1] = -k (p[i-1] + 10 p[i] + p[i+1]).
    const std::size_t count = cop_m.size();
    std::vector<double> mass(cop_m.begin(), cop_m.end());
    if (count < 3) return mass;
    const double k = std::pow(natural_frequency(pendulum) / rate_hz, 2) / 12.0;
    const double beside = 1.0 - k;
    const double middle = -2.0 - 10.0 * k;
    // Before the first and after the last sample the CoP stays: there the solution falls by a fixed factor
    // each step.
    const double half = -0.5 * middle / beside;
    const double fall = half - std::sqrt(half * half - 1.0);
    const auto load = [&](std::size_t i) {
        const double before = i == 0 ? cop_m.front() : cop_m[i - 1];
        const double after = i + 1 == count ? cop_m.back() : cop_m[i + 1];
        return -k * (before + 10.0 * cop_m[i] + after);
    };
    // Thomas' elimination; the ends carry beside * (p + fall * (m - p)) of the sample outside.
    std::vector<double> upper(count);
    std::vector<double> right(count);
    for (std::size_t i = 0; i < count; ++i) {
        double diagonal = middle;
        double constant = load(i);
        if (i == 0) {
            diagonal += beside * fall;
            constant -= beside * (1.0 - fall) * cop_m.front();
        }
        if (i + 1 == count) {
            diagonal += beside * fall;
            constant -= beside * (1.0 - fall) * cop_m.back();
        }
        const double pivot = i == 0 ? diagonal : diagonal - beside * upper[i - 1];
        upper[i] = i + 1 == count ? 0.0 : beside / pivot;
        right[i] = (i == 0 ? constant : constant - beside * right[i - 1]) / pivot;
    }
    mass[count - 1] = right[count - 1];
    for (std::size_t i = count - 1; i-- > 0;) mass[i] = right[i] - upper[i] * mass[i + 1];
    return mass;
}

}  // namespace footing
