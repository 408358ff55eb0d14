#pragma once

#include <optional>
#include <string>

#include "acquisition/frame/count_words.h"
#include "acquisition/frame/units.h"
#include "analysis/swing/share_words.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Numbers for people. Always with "." and independent of the locale. "±" is the expanded uncertainty, k = 2
/// (about 95 %); no more digits than it bears: one decimal while it is below one unit, else none. Those of a
/// share stand in analysis/swing/share_words.h.

/// "inside", "below", "above", "too close to call".
[[nodiscard]] std::string verdict_words(Verdict verdict);
/// The same for the share at the finish, where weight fully on the lead foot is what is wanted: "above" is no
/// fault there.
[[nodiscard]] std::string finish_verdict_words(Verdict verdict);
/// "judged with 95 % certainty".
[[nodiscard]] std::string certainty_words(double sure);
/// A place in the stance frame with its uncertainty, "−12 ± 3, 41 ± 2 mm": towards the target, ahead.
[[nodiscard]] std::string place_words(PointM place, std::optional<PointM> u);
/// A time with its uncertainty, "0.71 ± 0.04 s"; at least `u_s` 0.5 ms is shown.
[[nodiscard]] std::string time_words(double time_s, double u_s);
/// "12 min 5 s", "4.2 s".
[[nodiscard]] std::string duration_words(double seconds);
/// The same sentence with spaces that do not break where a number would part from its unit, its ±, its ratio
/// or the other end of its range.
[[nodiscard]] std::string unbroken(std::string sentence);
/// A number with `decimals` places and a true minus sign; "0" never has one.
[[nodiscard]] std::string number_words(double value, int decimals);

}  // namespace footing
