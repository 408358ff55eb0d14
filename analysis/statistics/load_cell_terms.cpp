#include "analysis/statistics/load_cell_terms.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace footing {

namespace {

/// Loads closer than this are the same load.
constexpr double same_load_n = 0.05;

long load_key(double force_n) {
    return std::lround(force_n / same_load_n);
}

double mean_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

void raise(std::optional<double>& largest, double value) {
    largest = largest ? std::max(*largest, value) : value;
}

}  // namespace

void tell_directions(std::span<LoadReading> in_order_of_time) {
    for (std::size_t i = 1; i < in_order_of_time.size(); ++i) {
        const double step_n = in_order_of_time[i].force_n - in_order_of_time[i - 1].force_n;
        LoadDirection& direction = in_order_of_time[i].direction;
        const bool new_run = in_order_of_time[i].run != in_order_of_time[i - 1].run;
        if (new_run || step_n > same_load_n) {
            direction = LoadDirection::growing;
        } else if (step_n < -same_load_n) {
            direction = LoadDirection::falling;
        } else {
            direction = LoadDirection::held;
        }
    }
}

LoadCellTerms load_cell_terms(std::span<const LoadReading> readings, const StraightLine& line) {
    LoadCellTerms terms;
    const double newtons_per_count = 1.0 / line.slope;
    std::map<std::pair<long, LoadDirection>, std::vector<double>> by_load;
    const LoadReading* start_of_hold = nullptr;
    for (const LoadReading& reading : readings) {
        terms.full_load_n = std::max(terms.full_load_n, std::abs(reading.force_n));
        if (reading.direction == LoadDirection::held) {
            // A plate left empty between two runs is no creep.
            if (start_of_hold == nullptr || std::abs(reading.force_n) < same_load_n) continue;
            const double change_n = (reading.counts - start_of_hold->counts) * newtons_per_count;
            const double held_s = reading.time_s - start_of_hold->time_s;
            if (!terms.creep_s || held_s >= *terms.creep_s) {
                terms.creep_n = change_n;
                terms.creep_s = held_s;
            }
            continue;
        }
        start_of_hold = &reading;
        by_load[{load_key(reading.force_n), reading.direction}].push_back(reading.counts);
        if (reading.direction == LoadDirection::growing)
            raise(terms.non_linearity_n,
                  std::abs((reading.counts - line.at(reading.force_n)) * newtons_per_count));
    }
    for (const auto& [load, counts] : by_load) {
        if (counts.size() > 1) {
            const auto [lowest, highest] = std::minmax_element(counts.begin(), counts.end());
            raise(terms.repeatability_n, std::abs((*highest - *lowest) * newtons_per_count));
        }
        if (load.second != LoadDirection::falling) continue;
        const auto growing = by_load.find({load.first, LoadDirection::growing});
        if (growing == by_load.end()) continue;
        raise(terms.hysteresis_n, std::abs((mean_of(counts) - mean_of(growing->second)) * newtons_per_count));
    }
    return terms;
}

double percent_of_full_load(double error_n, double full_load_n) {
    return full_load_n > 0.0 ? 100.0 * error_n / full_load_n : 0.0;
}

}  // namespace footing
