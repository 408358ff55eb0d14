#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "analysis/swing/analyse_swings.h"
#include "tests/support/swing_generator.h"

namespace footing::testing {

/// Found minus true, for swings that were found; in seconds and shares.
struct SwingErrors {
    std::size_t true_swings = 0;
    std::size_t found_right = 0;
    std::size_t found_wrong = 0;
    std::vector<double> takeaway_s, turnaround_s, impact_s, finish_s;
    std::vector<double> address, lowest, impact, finish;
    /// Errors over stated standard uncertainties.
    std::vector<double> takeaway_in_u, turnaround_in_u, impact_in_u, finish_in_u, address_in_u, lowest_in_u,
        impact_share_in_u, finish_share_in_u;

    [[nodiscard]] double recall() const;
    [[nodiscard]] double precision() const;
    void add(const SwingErrors& other);
};

/// A found swing is right when its impact lies between a true takeaway and 0.35 s after the true impact; each
/// true swing counts once.
[[nodiscard]] SwingErrors compare(const GeneratedLesson& lesson, const std::vector<Swing>& found);

[[nodiscard]] double median_of(std::vector<double> values);
[[nodiscard]] double median_size(std::vector<double> errors);  ///< of absolute values
[[nodiscard]] double p95_size(std::vector<double> errors);
[[nodiscard]] double covered_by_two(const std::vector<double>& errors_in_u);  ///< part within k = 2

/// How much sways and how noisy the plates are.
enum class Conditions { quiet, ordinary, worst };
/// The plan of a lesson: rate, hand and mass go round with the seed.
[[nodiscard]] LessonPlan plan_for(MotionShape shape, Conditions conditions, std::uint64_t seed);

}  // namespace footing::testing
