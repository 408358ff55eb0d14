#pragma once

#include <array>
#include <optional>

#include "analysis/swing/swing_stance.h"

namespace footing {

/// The four shares of a foot by name, in the order of a swing; for files and tables.
struct NamedFootShare {
    const char* name;
    std::optional<double> FootShares::*member;
};
inline constexpr std::array<NamedFootShare, 4> named_foot_shares{{{"address", &FootShares::address},
                                                                  {"top", &FootShares::top},
                                                                  {"impact", &FootShares::impact},
                                                                  {"finish", &FootShares::finish}}};

}  // namespace footing
