#pragma once

#include <atomic>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "acquisition/frame/result.h"

namespace footing {

/// What carries the emulated device's bytes away.
class EmulatedLine {
  public:
    virtual ~EmulatedLine() = default;
    /// Sends one packet; on a stream, all of it. Blocks no longer than it takes.
    virtual Outcome send(std::span<const std::byte> packet) = 0;
    /// Waits until what was sent has been taken, as far as the line can know; call after the last packet.
    virtual void drain() {}
    enum class Framing { datagram, stream };
    [[nodiscard]] virtual Framing framing() const = 0;
    [[nodiscard]] virtual std::string name() const = 0;
};

/// Datagrams to HOST:PORT.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_udp_line(const std::string& host_and_port);

/// A serial port or the far side of a pty, PATH[:BAUD], raw.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_serial_line(const std::string& path_and_baud);

/// A fresh pty whose near side can be opened under the path `link` (a symbolic link, removed at the end).
/// Waits at most `patience_s` for a reader when the first packet is sent.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_pty_line(const std::string& link, double patience_s);

/// How the device speaks, and how badly the line treats what it says.
struct TransmitSettings {
    enum class Words { packets, text_lines } words = Words::packets;
    double speed = 1.0;               ///< times real time
    double loss_probability = 0.0;    ///< of a packet or line, never sent
    double damage_probability = 0.0;  ///< of a packet or line, one to four bits flipped
    std::uint64_t seed = 1;           ///< of loss and damage
};

/// What was done to the frames on the way; tests compare it with what a receiver counted.
struct TransmitCount {
    std::uint64_t frames = 0;
    std::uint64_t packets = 0;               ///< of frames, sent
    std::uint64_t descriptions = 0;          ///< sent, not counted in packets; never lost or damaged
    std::vector<std::uint64_t> lost_frames;  ///< index of each frame that the line lost or damaged, ascending
    std::uint64_t packets_lost = 0;
    std::uint64_t packets_damaged = 0;
};

/// Sends the whole lesson: the description five times within half a second, then frames at their time, the
/// description again each second. Returns early, with success, when `stop` becomes true. Blocks; call on a
/// thread of its own or as the whole program. Fails with device_failed when the line fails.
[[nodiscard]] Result<TransmitCount> transmit(EmulatedDevice& device, EmulatedLine& line,
                                             const TransmitSettings& settings, const std::atomic<bool>& stop);

}  // namespace footing
