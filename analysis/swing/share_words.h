#pragma once

#include <string>

#include "analysis/swing/swing.h"

namespace footing {

/// "74 ± 1 %", "74.3 ± 0.8 %"; "74 %" when the uncertainty is not known.
[[nodiscard]] std::string share_words(const ShareValue& share);
/// The same without " %", for a column whose head says it.
[[nodiscard]] std::string share_numbers(const ShareValue& share);
/// "74 %" only, for places without room; a decimal is never shown.
[[nodiscard]] std::string share_short(double share);
/// "70 to 80 %".
[[nodiscard]] std::string band_words(const TargetBand& band);
/// "2.9 : 1".
[[nodiscard]] std::string ratio_words(double ratio);

}  // namespace footing
