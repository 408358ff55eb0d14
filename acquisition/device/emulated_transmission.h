#pragma once

#include <atomic>
#include <cstdint>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_line.h"
#include "acquisition/frame/result.h"

namespace footing {

/// How the device speaks, and how badly the line treats what it says.
struct TransmitSettings {
    enum class Words { packets, text_lines } words = Words::packets;
    double speed = 1.0;               ///< times real time
    double loss_probability = 0.0;    ///< of a packet or line: never sent
    double damage_probability = 0.0;  ///< of a packet or line: one to four bits flipped
    double mean_delay_s = 0.0;  ///< each frame is held back by the line, exponentially, so long on average;
                                ///< none overtakes another
    double unplugged_from_s = 0.0;  ///< in true seconds from the first frame: from here …
    double unplugged_to_s = 0.0;    ///< … to here nothing goes through
    std::uint64_t seed = 1;         ///< of loss, damage and delay
};

/// What became of the frames; tests compare it with what a receiver counted.
struct TransmitCount {
    std::uint64_t frames = 0;        ///< of the device, lost ones included
    std::uint64_t packets = 0;       ///< that carry frames, sent whole
    std::uint64_t descriptions = 0;  ///< never lost or damaged
    std::uint64_t packets_lost = 0;
    std::uint64_t packets_damaged = 0;
    std::vector<std::uint64_t> lost_frames;  ///< index of each frame that was lost or damaged, ascending
    enum class End { lesson_over, stopped, reader_gone } end = End::lesson_over;
};

/// Largest speed at which a receiver on the same computer is not flooded: 50 times real time, or 20,000
/// packets a second.
[[nodiscard]] double sensible_speed(const DeviceDescription& description);

/// Sends the whole lesson: the description five times within half a second, then each frame at its time, the
/// description again each second. Text lines carry cells only, with a checksum, and no description. Ends
/// early, with success, when `stop` becomes true or the reader leaves. Blocks its thread. Fails with
/// device_failed when the line does, bad_input when a mat is to speak in text lines.
[[nodiscard]] Result<TransmitCount> transmit(EmulatedDevice& device, EmulatedLine& line,
                                             const TransmitSettings& settings, const std::atomic<bool>& stop);

/// One of several devices that are sent side by side.
struct TransmitPart {
    EmulatedDevice* device = nullptr;
    EmulatedLine* line = nullptr;
    TransmitSettings settings;  ///< the speed is that of the first
};

/// Sends several devices over a line each, in step: true time is the same for all, however busy the computer
/// is. Ends when all are over. What became of each, in order. Else as transmit().
[[nodiscard]] Result<std::vector<TransmitCount>> transmit_together(const std::vector<TransmitPart>& parts,
                                                                   const std::atomic<bool>& stop);

}  // namespace footing
