#pragma once

#include "analysis/distance/carry.h"

namespace footing::test {

inline constexpr double yard = metres_per_yard;

}  // namespace footing::test
