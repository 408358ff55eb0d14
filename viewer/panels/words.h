#pragma once

#include <string>

#include "analysis/report/lesson_result.h"
#include "analysis/swing/swing.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// "inside the band", "below the band", "above the band", "too close to call".
[[nodiscard]] std::string band_words_of(Verdict verdict);
/// A momentary share against the band, told without a verdict because one sample has no stated uncertainty:
/// "in the band", "6 % below the band".
[[nodiscard]] std::string distance_words(double share, const TargetBand& band);
/// "3.20 s before impact", "at impact", "0.12 s after impact"; without a swing "12.40 s".
[[nodiscard]] std::string moment_words(const Swing* swing, double time_s);
/// "1:04.2", "1:02:03.4": seconds from the first frame as a clock shows them; whole seconds with `decimals`
/// 0.
[[nodiscard]] std::string clock_words(double time_s, int decimals = 1);
/// "1/20 ×", "1/4 ×", "1 ×", "2 ×".
[[nodiscard]] std::string speed_words(double speed);
/// "nothing lost", "12 of 4000 frames lost (0.30 %), 3 damaged".
[[nodiscard]] std::string loss_words(const LossCounters& losses);
/// "recorded whole", "recorded with loss", "the end is missing", "stopped early".
[[nodiscard]] std::string outcome_words(RecordingOutcome outcome);
/// "swing 12, shot", "swing 4, practice", "swing 5".
[[nodiscard]] std::string swing_words(const Swing& swing);
/// The same with what the coach said of it in a lesson under way.
[[nodiscard]] std::string swing_words(const ViewState& state, std::size_t place);
/// "shot", "practice", "no swing"; what the coach said, else what was found; may be empty.
[[nodiscard]] std::string kind_words(const ViewState& state, std::size_t place);

}  // namespace footing
