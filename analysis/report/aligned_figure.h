#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "analysis/report/figure.h"
#include "analysis/swing/aligned_swings.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// What a picture of aligned swings says of them.
struct AlignedNames {
    std::vector<std::string> swings;  ///< one a swing that was given: "swing 12"
    std::array<std::string, aligned_groups> groups;
    std::string event;                       ///< what they are aligned on
    std::optional<std::size_t> looked_at{};  ///< a swing that was given: drawn dark and named
};

/// Swings aligned on one event: share across, time down. Of the first group a mean with its simultaneous 95 %
/// confidence band, of the second a dashed mean; each swing a thin line; the odd ones out dark and named. A
/// group of one or two swings is drawn as lines alone. Mean times of the other events stand at the left.
[[nodiscard]] Figure aligned_figure(const AlignedSwings& aligned, const AlignedNames& names,
                                    const TargetBand& band, double width, double height);

/// What it shows, a sentence each, the odd ones out included.
[[nodiscard]] std::vector<std::string> aligned_words(const AlignedSwings& aligned, const AlignedNames& names);

}  // namespace footing
