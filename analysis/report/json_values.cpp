#include "analysis/report/json_values.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "analysis/swing/named_foot_shares.h"

namespace footing {

using Json = nlohmann::ordered_json;

Json finite_or_null(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json finite_or_null(const std::optional<double>& value) {
    return value ? finite_or_null(*value) : Json(nullptr);
}

Json foot_shares_json(const FootShares& shares) {
    Json all = Json::object();
    for (const NamedFootShare& named : named_foot_shares) {
        const auto& share = shares.*named.member;
        if (share && std::isfinite(*share)) all[named.name] = *share;
    }
    return all;
}

}  // namespace footing
