#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include <string>
#include <string_view>

#include "acquisition/frame/result.h"
#include "acquisition/record/recording.h"

namespace footing {

/// What a recording says of itself as one line of JSON, in a fixed order: the info and end records of the
/// journal, and what the HDF5 file's checksum of facts is taken of. Without frame_count, gaps, notes and
/// swings, which are stored on their own.
[[nodiscard]] std::string recording_json(const RecordingInfo& info);

/// What it says of one of several devices: as above, without its frame_count and gaps.
[[nodiscard]] std::string joined_device_json(const JoinedDevice& device);

/// The opposite. Fails with bad_input, naming `place`.
[[nodiscard]] Result<JoinedDevice> parse_joined_device_json(std::string_view json, std::string_view place);

/// The opposite of recording_json. Fails with bad_input, naming `place`, when something is missing or
/// impossible.
[[nodiscard]] Result<RecordingInfo> parse_recording_json(std::string_view json, std::string_view place);

/// The opposite of outcome_name; nothing for another word.
[[nodiscard]] std::optional<RecordingOutcome> outcome_from_name(std::string_view name);

/// The counters by name, in the order of LossCounters; for JSON and for the attributes of /gaps.
struct NamedLoss {
    const char* name;
    std::uint64_t LossCounters::*member;
};
inline constexpr std::array<NamedLoss, 9> named_losses{
    {{"frames", &LossCounters::frames},
     {"lost", &LossCounters::lost},
     {"duplicated", &LossCounters::duplicated},
     {"reordered", &LossCounters::reordered},
     {"damaged", &LossCounters::damaged},
     {"foreign", &LossCounters::foreign},
     {"socket_overflow", &LossCounters::socket_overflow},
     {"queue_overflow", &LossCounters::queue_overflow},
     {"incomplete_grids", &LossCounters::incomplete_grids}}};

}  // namespace footing
