#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace footing {

/// What a walk over a mat told of its elements. 0-based numbers, row by row.
struct MatFindings {
    std::vector<std::uint32_t> dead;       ///< did not answer though those around it were loaded
    std::vector<std::uint32_t> clipped;    ///< reached the end of the scale
    std::vector<std::uint32_t> weak;       ///< answered less than half as much as those around it
    std::vector<std::uint32_t> unchecked;  ///< never in the midst of a loaded patch
    std::vector<double> response;          ///< one an element: against those around it; 0: not known
};

/// Watches a mat while someone walks over all of it. An element is judged only while most of its neighbours
/// are loaded, so that the edge of a foot is not taken for a fault; its answer is compared with theirs. That
/// finds faults, it does not calibrate: under a foot the pressure is not even.
class MatSurvey {
  public:
    /// `full_scale_counts`: where elements clip.
    MatSurvey(std::size_t rows, std::size_t columns, double full_scale_counts);

    /// A frame of the empty mat, before the walk: what elements read without a load.
    void take_empty(std::span<const std::uint16_t> counts);
    /// A frame of the walk. Shape of both: [rows * columns].
    void take(std::span<const std::uint16_t> counts);

    /// Part of the elements that have been judged so far, in [0, 1].
    [[nodiscard]] double covered() const;
    [[nodiscard]] MatFindings findings() const;

  private:
    [[nodiscard]] double floor_of(std::size_t element) const;
    void watch(std::size_t row, std::size_t column, std::span<const std::uint16_t> counts);

    std::size_t rows_;
    std::size_t columns_;
    double full_scale_counts_;
    std::vector<double> empty_most_;  ///< highest reading of the empty mat
    std::vector<double> own_;         ///< sum of an element's readings while its neighbours were loaded
    std::vector<double> around_;      ///< sum of its neighbours' mean over the same frames
    std::vector<std::uint32_t> seen_;
    std::vector<char> clipped_;
};

/// A mat's one factor from a known weight that stood in several places.
struct MatFactor {
    double newtons_per_count = 0.0;
    double relative_u =
        0.0;  ///< standard uncertainty of a load anywhere on the mat, by how the places differ
    std::vector<double> by_place;
};

/// `counts_total`: sum of all elements less the empty mat, one a place. Nothing when a sum is not positive or
/// there is no place. With one place its uncertainty is taken as 5 % (common practice, no source).
[[nodiscard]] std::optional<MatFactor> mat_factor(double force_n, std::span<const double> counts_total);

}  // namespace footing
