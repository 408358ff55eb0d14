#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "analysis/swing/swing_stance.h"

namespace footing {

/// A number as JSON: null where it is not known or not finite, which JSON cannot hold.
[[nodiscard]] nlohmann::ordered_json finite_or_null(double value);
[[nodiscard]] nlohmann::ordered_json finite_or_null(const std::optional<double>& value);

/// `{address, top, impact, finish}`; what is not known is absent.
[[nodiscard]] nlohmann::ordered_json foot_shares_json(const FootShares& shares);

}  // namespace footing
