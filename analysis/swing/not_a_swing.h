#pragma once

#include <string>

namespace footing {

/// Why a quick movement is not a swing; `none` when it is one.
enum class NotASwing {
    none,
    nobody_stands,     ///< the load is not that of somebody standing on both feet, or leaves the ground
    no_quiet_address,  ///< not still before it began
    too_small,         ///< neither the share nor the load moves enough
    too_slow,          ///< the load returns to the lead foot no faster than it left
    not_held,          ///< the load swings back at once: waggling, rocking, walking
    one_foot_lifted,   ///< a step
    anothers_load,     ///< the load on the plates is more than the golfer's own for too long
    no_backswing,      ///< nothing went before the return to the lead foot
    unlikely,          ///< all signs together speak against it
};
[[nodiscard]] std::string name_of(NotASwing reason);

}  // namespace footing
