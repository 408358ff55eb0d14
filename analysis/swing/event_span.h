#pragma once

#include <cmath>

#include "analysis/swing/swing.h"

namespace footing {

/// Stretch of time over which the values of an event are means, seconds from the first frame.
struct EventSpan {
    double from_s = 0.0;
    double to_s = 0.0;
};

/// The quiet spell that an address was found in. The address is its middle and may be any instant of it, so
/// that the standard uncertainty is half its length over the root of 3 (rectangular, JCGM 100, 4.3.7).
[[nodiscard]] inline EventSpan address_span(const Event& address) {
    const double half_s = address.u_s * std::sqrt(3.0);
    return {address.time_s - half_s, address.time_s + half_s};
}

/// To either side of an instant in motion, over which places are means.
inline constexpr double instant_half_s = 0.015;
[[nodiscard]] inline EventSpan instant_span(const Event& event) {
    return {event.time_s - instant_half_s, event.time_s + instant_half_s};
}

/// The beginning of the held finish.
inline constexpr double finish_mean_s = 0.3;
[[nodiscard]] inline EventSpan finish_span(const Event& finish) {
    return {finish.time_s, finish.time_s + finish_mean_s};
}

}  // namespace footing
