#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace footing {

/// Frames that the device counted and that never came, between two frames that did.
struct Gap {
    std::uint64_t after_counter = 0;  ///< counter of the last frame before the gap
    std::uint64_t frames_missing =
        0;  ///< by the device's own count; 0 when the device restarted and cannot say
    std::uint64_t from_time_us = 0;  ///< device time of the frame before
    std::uint64_t to_time_us = 0;    ///< device time of the frame after
    friend bool operator==(const Gap&, const Gap&) = default;
};

/// Every kind of loss has its own counter; nothing is dropped without one of them going up.
struct LossCounters {
    std::uint64_t frames = 0;            ///< frames taken
    std::uint64_t lost = 0;              ///< frames missing by the device's counter
    std::uint64_t duplicated = 0;        ///< frames that came again, dropped
    std::uint64_t reordered = 0;         ///< frames that came too late to be put in order, dropped
    std::uint64_t damaged = 0;           ///< packets or lines with a bad checksum or an impossible shape
    std::uint64_t foreign = 0;           ///< packets from another sender or another device's serial number
    std::uint64_t socket_overflow = 0;   ///< datagrams, maybe the device's, that the operating system dropped
    std::uint64_t queue_overflow = 0;    ///< frames our own recording queue had no room for
    std::uint64_t incomplete_grids = 0;  ///< grid frames of which a band never came
    /// All of several devices.
    LossCounters& operator+=(const LossCounters& other);
    friend bool operator==(const LossCounters&, const LossCounters&) = default;
};

/// How a recording ended: exactly one of these.
enum class RecordingOutcome {
    clean,       ///< stopped on purpose, nothing missing
    lossy,       ///< stopped on purpose, but frames were lost or damaged
    truncated,   ///< the end is missing: the program or the computer stopped before it could close
    incomplete,  ///< closed early by a cause outside: disk full, device gone
};

[[nodiscard]] std::string outcome_name(RecordingOutcome outcome);

}  // namespace footing
