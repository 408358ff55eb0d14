#include "analysis/statistics/calibration_fit_mat.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr std::uint32_t frames_to_judge = 20;
constexpr double above_empty_counts = 3.0;
constexpr double least_neighbours = 0.6;  ///< so many of them must be loaded
constexpr double dead_below = 0.05;
constexpr double weak_below = 0.5;
constexpr double one_place_relative_u = 0.05;

}  // namespace

MatSurvey::MatSurvey(std::size_t rows, std::size_t columns, double full_scale_counts)
    : rows_(rows),
      columns_(columns),
      full_scale_counts_(full_scale_counts),
      empty_most_(rows * columns, 0.0),
      own_(rows * columns, 0.0),
      around_(rows * columns, 0.0),
      seen_(rows * columns, 0),
      clipped_(rows * columns, 0) {}

double MatSurvey::floor_of(std::size_t element) const {
    return empty_most_[element] + above_empty_counts;
}

void MatSurvey::take_empty(std::span<const std::uint16_t> counts) {
    assert(counts.size() == empty_most_.size());
    for (std::size_t i = 0; i < counts.size(); ++i)
        empty_most_[i] = std::max(empty_most_[i], static_cast<double>(counts[i]));
}

void MatSurvey::watch(std::size_t row, std::size_t column, std::span<const std::uint16_t> counts) {
    const std::size_t first_row = row == 0 ? 0 : row - 1;
    const std::size_t first_column = column == 0 ? 0 : column - 1;
    double sum = 0.0;
    double neighbours = 0.0;
    double loaded = 0.0;
    for (std::size_t r = first_row; r <= std::min(row + 1, rows_ - 1); ++r) {
        for (std::size_t c = first_column; c <= std::min(column + 1, columns_ - 1); ++c) {
            if (r == row && c == column) continue;
            const std::size_t i = r * columns_ + c;
            const double value = counts[i];
            ++neighbours;
            sum += std::max(0.0, value - empty_most_[i]);
            if (value > floor_of(i)) ++loaded;
        }
    }
    if (neighbours == 0.0 || loaded < least_neighbours * neighbours) return;
    const std::size_t i = row * columns_ + column;
    own_[i] += std::max(0.0, static_cast<double>(counts[i]) - empty_most_[i]);
    around_[i] += sum / neighbours;
    ++seen_[i];
}

void MatSurvey::take(std::span<const std::uint16_t> counts) {
    assert(counts.size() == empty_most_.size());
    for (std::size_t row = 0; row < rows_; ++row) {
        for (std::size_t column = 0; column < columns_; ++column) watch(row, column, counts);
    }
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (static_cast<double>(counts[i]) >= full_scale_counts_) clipped_[i] = 1;
    }
}

double MatSurvey::covered() const {
    const auto judged = std::count_if(seen_.begin(), seen_.end(),
                                      [](std::uint32_t frames) { return frames >= frames_to_judge; });
    return seen_.empty() ? 0.0 : static_cast<double>(judged) / static_cast<double>(seen_.size());
}

MatFindings MatSurvey::findings() const {
    MatFindings found;
    found.response.assign(seen_.size(), 0.0);
    for (std::size_t i = 0; i < seen_.size(); ++i) {
        const auto element = static_cast<std::uint32_t>(i);
        if (clipped_[i] != 0) found.clipped.push_back(element);
        if (seen_[i] < frames_to_judge || around_[i] <= 0.0) {
            found.unchecked.push_back(element);
            continue;
        }
        found.response[i] = own_[i] / around_[i];
        if (found.response[i] < dead_below) {
            found.dead.push_back(element);
        } else if (found.response[i] < weak_below) {
            found.weak.push_back(element);
        }
    }
    return found;
}

std::optional<MatFactor> mat_factor(double force_n, std::span<const double> counts_total) {
    if (counts_total.empty()) return std::nullopt;
    MatFactor factor;
    for (const double total : counts_total) {
        if (!(total > 0.0)) return std::nullopt;
        factor.by_place.push_back(force_n / total);
    }
    factor.newtons_per_count = mean(factor.by_place);
    const auto places = static_cast<double>(factor.by_place.size());
    if (places < 2.0) {
        factor.relative_u = one_place_relative_u;
        return factor;
    }
    // A load in a new place differs from the mean of the places as each of them did, and the mean is not
    // sure.
    factor.relative_u = standard_deviation(factor.by_place) / factor.newtons_per_count *
                        std::sqrt(1.0 + 1.0 / places) * covering_factor(places - 1.0);
    return factor;
}

}  // namespace footing
