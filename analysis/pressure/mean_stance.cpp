#include "analysis/pressure/mean_stance.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "analysis/pressure/lead_share.h"
#include "analysis/statistics/summary.h"
#include "analysis/statistics/time_mean.h"

namespace footing {

namespace {

std::span<const double> part(const std::vector<double>& column, TraceStretch stretch) {
    return std::span(column).subspan(stretch.begin, stretch.end - stretch.begin);
}

double known_mean(const std::vector<double>& column, TraceStretch stretch) {
    RunningSummary summary;
    for (const double value : part(column, stretch)) {
        if (known(value)) summary.add(value);
    }
    return summary.count() > 0 ? summary.mean() : unknown;
}

std::optional<PointM> mean_point(const std::vector<double>& x_m, const std::vector<double>& y_m,
                                 TraceStretch stretch) {
    const PointM point{known_mean(x_m, stretch), known_mean(y_m, stretch)};
    if (!known(point.x_m) || !known(point.y_m)) return std::nullopt;
    return point;
}

/// One place as two columns of the trace, and what its systematic uncertainty is called.
struct Place {
    std::vector<double> LoadTrace::*x_m;
    std::vector<double> LoadTrace::*y_m;
    std::optional<PointM> LoadSample::*mean;
    PointM LoadU::*u;
};
constexpr Place whole{&LoadTrace::cop_x_m, &LoadTrace::cop_y_m, &LoadSample::cop, &LoadU::cop};
constexpr Place left{&LoadTrace::left_x_m, &LoadTrace::left_y_m, &LoadSample::left_cop, &LoadU::left_cop};
constexpr Place right{&LoadTrace::right_x_m, &LoadTrace::right_y_m, &LoadSample::right_cop,
                      &LoadU::right_cop};

/// `random_u`: of a column, from what the recording itself shows.
template <typename RandomU>
MeanStance places(const MeanLoad& mean, const LoadU& systematic, Hand hand, const RandomU& random_u) {
    const auto point = [&](const Place& place) -> std::optional<KnownPoint> {
        const std::optional<PointM>& at = mean.load.*place.mean;
        if (!at) return std::nullopt;
        const PointM& u = systematic.*place.u;
        return KnownPoint{to_stance_frame(*at, hand), PointM{std::hypot(u.x_m, random_u(place.x_m)),
                                                             std::hypot(u.y_m, random_u(place.y_m))}};
    };
    MeanStance stance;
    stance.cop = point(whole);
    stance.lead_cop = point(hand == Hand::right ? left : right);
    stance.trail_cop = point(hand == Hand::right ? right : left);
    return stance;
}

}  // namespace

MeanLoad mean_load(const LoadTrace& trace, TraceStretch stretch) {
    MeanLoad mean;
    if (stretch.begin >= stretch.end) return mean;
    mean.time_s = 0.5 * (trace.time_s[stretch.begin] + trace.time_s[stretch.end - 1]);
    mean.load.total_n = known_mean(trace.total_n, stretch);
    mean.load.left_n = known_mean(trace.left_n, stretch);
    mean.load.right_n = known_mean(trace.right_n, stretch);
    for (const Place& place : {whole, left, right})
        mean.load.*place.mean = mean_point(trace.*place.x_m, trace.*place.y_m, stretch);
    const double one_sample_s = 1.0 / trace.rate_hz;
    const double noise_n = noise_of_window_mean(part(trace.total_n, stretch), trace.rate_hz, one_sample_s);
    if (known(noise_n)) mean.noise_n = noise_n;
    return mean;
}

MeanStance mean_stance(const LoadTrace& trace, TraceStretch stretch, Hand hand,
                       const LoadUncertainty& uncertainty) {
    const MeanLoad mean = mean_load(trace, stretch);
    const LoadU systematic = uncertainty.of(mean);
    MeanStance stance = places(mean, systematic, hand, [&](std::vector<double> LoadTrace::*column) {
        return time_mean(part(trace.*column, stretch), trace.rate_hz).u;
    });
    std::vector<double> shares;
    for (std::size_t i = stretch.begin; i < stretch.end; ++i)
        shares.push_back(lead_share(trace.left_n[i], trace.right_n[i], hand));
    const TimeMean share = time_mean(shares, trace.rate_hz);
    if (known(share.mean) && known(share.u) && known(systematic.share))
        stance.lead_share = KnownValue{share.mean, std::hypot(share.u, systematic.share)};
    return stance;
}

MeanStance stance_at(const LoadTrace& trace, const InstantInMotion& instant, Hand hand,
                     const LoadUncertainty& uncertainty) {
    const auto around = [&](double time_s) {
        return stretch_between(trace, time_s - instant.half_s, time_s + instant.half_s);
    };
    const TraceStretch here = around(instant.time_s);
    const TraceStretch before = around(instant.time_s - instant.u_s);
    const TraceStretch after = around(instant.time_s + instant.u_s);
    MeanLoad mean = mean_load(trace, here);
    mean.noise_n = mean_load(trace, instant.resting).noise_n;
    const auto random_u = [&](std::vector<double> LoadTrace::*name) {
        const std::vector<double>& column = trace.*name;
        const double noise =
            noise_of_window_mean(part(column, instant.resting), trace.rate_hz, 2.0 * instant.half_s);
        const double value = known_mean(column, here);
        double by_time = 0.0;
        for (const TraceStretch& there : {before, after}) {
            const double change = std::abs(known_mean(column, there) - value);
            if (known(change)) by_time = std::max(by_time, change);
        }
        return std::hypot(known(noise) ? noise : 0.0, by_time);
    };
    return places(mean, uncertainty.of(mean), hand, random_u);
}

}  // namespace footing
