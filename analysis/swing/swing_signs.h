#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace footing {

/// What speaks for or against a quick movement being a swing. "Against the push" means in units of it.
enum class SwingSign : std::size_t {
    return_share,     ///< change of share from turn to arrival
    return_in_usual,  ///< the same, in units of what the share must change by to be seen
    return_s,         ///< from a tenth to nine tenths of it
    quick_s,          ///< the same, as far as it has a quarter of its highest speed
    speed,            ///< highest of the share, 1/s
    push,             ///< largest load above that of the address, body weights
    push_in_usual,    ///< the same, in units of what the load must change by to be seen
    push_s,           ///< above half of it
    impulse_left,     ///< part of the push's impulse that the body does not take back
    unrest_after,   ///< load off that of the address, 0.45 to 0.75 s after the push's peak, against the push
    unrest_before,  ///< the same, 0.85 to 0.35 s before it
    sink,           ///< of the load before the push, against it
    rise,           ///< of the load until 0.3 s before the push, against it
    unload,         ///< below the address within 0.35 s after the push, against it
    bent_before,    ///< 1: the load sank and braked once some seconds before
    hold,           ///< lowest share in the half second after the arrival, in returns above the turn
    rest_level,     ///< share after the arrival less that of the address
    far_share,      ///< furthest from the address before the turn, in usual changes
    far_forward,    ///< the same of the forward CoP
    departure_s,    ///< from the end of the quiet spell to the turn
    away_s,         ///< more than half of the backswing away
    impulse,        ///< size of that from the address to half a second after the return, body weights times s
    load_after,     ///< size of its difference to the address half a second after the return, body weights
    load_range,     ///< largest less smallest load, body weights
    range_to_push,  ///< the same, against the push
    load_rate,      ///< highest rate of change of the load, body weights per s
    quiet_s,        ///< how long the address was still
    lowest,         ///< share from the address on
    highest_before,  ///< share until the turn
    highest,         ///< share from the address on
    forward_range,   ///< of the CoP along the feet, m
    settling,        ///< least unrest from 0.3 s after the arrival on, in units of what counts as still
    back,            ///< share of the address less the lowest before the turn
    turns,           ///< how often the share turns by 0.15 of its range
    crossings,      ///< how often the load goes from a quarter of a push above that of the address to as much
                    ///< below
    lateness_s,     ///< of the push's peak after the middle of the return
    stir_before,    ///< load off that of the address, 2.5 to 0.85 s before the push's peak, against the push
    load_repeats,   ///< how like the load about the push is to itself 0.35 to 0.9 s before or after, -1 to 1
    share_repeats,  ///< the same of the share
    count
};

constexpr std::size_t sign_count = static_cast<std::size_t>(SwingSign::count);
using SwingSigns = std::array<double, sign_count>;

/// In the order of SwingSign, for tables.
extern const std::array<std::string_view, sign_count> sign_names;

}  // namespace footing
