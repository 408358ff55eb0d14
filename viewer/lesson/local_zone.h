#pragma once

#include <string>

namespace footing {

/// IANA name of this computer's time zone ("Europe/Berlin"); "UTC" where it has none.
[[nodiscard]] std::string local_zone();

}  // namespace footing
