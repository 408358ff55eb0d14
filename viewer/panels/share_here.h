#pragma once

#include <optional>
#include <string>

#include "analysis/report/figure_scale.h"
#include "analysis/swing/verdict.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// The lead share at the head.
struct ShareHere {
    double value = unknown;
    std::string meaning;  ///< against the band
    std::string moment;
    std::optional<Verdict> verdict;
};
[[nodiscard]] ShareHere share_here(const ViewState& state);

/// The same in one line: "83 %, 0.12 s after impact", "at top: 61 ± 1 %"; empty where it is not known.
[[nodiscard]] std::string share_here_words(const ViewState& state);

}  // namespace footing
