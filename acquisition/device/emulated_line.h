#pragma once

#include <atomic>
#include <cstddef>
#include <memory>
#include <span>
#include <string>

#include "acquisition/frame/result.h"

namespace footing {

/// What carries the emulated device's bytes away. One thread at a time; `stop`, set from elsewhere, ends any
/// waiting.
class EmulatedLine {
  public:
    enum class Framing { datagram, stream };
    enum class Reader { listening, gone };

    virtual ~EmulatedLine() = default;
    [[nodiscard]] virtual Framing framing() const = 0;
    [[nodiscard]] virtual std::string name() const = 0;

    /// Waits for somebody to read, where the line can know of it (a pty); fails with device_failed when
    /// nobody came.
    [[nodiscard]] virtual Outcome wait_for_reader(const std::atomic<bool>& /*stop*/) { return Done{}; }
    /// Sends one packet whole. `gone`: there was a reader and it has left (a pty only). Fails with
    /// device_failed.
    [[nodiscard]] virtual Result<Reader> send(std::span<const std::byte> packet,
                                              const std::atomic<bool>& stop) = 0;
    /// Gives a reader the time to take what was sent last; at most a second.
    virtual void drain(const std::atomic<bool>& /*stop*/) {}
};

/// Datagrams to HOST:PORT ([…] round an IPv6 address). Nobody need listen.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_udp_line(const std::string& host_and_port);

/// A serial port, or a pty's near side, PATH[:BAUD] (115,200 if not stated), raw. Fails with device_failed
/// when the path is no serial line, is taken, or refuses the speed.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_serial_line(const std::string& path_and_baud);

/// A fresh pty that can be opened under the path `link` (a symbolic link, removed at the end; a dangling link
/// of that name is replaced, anything else there is left alone and is an error). wait_for_reader waits
/// `patience_s`.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_pty_line(const std::string& link, double patience_s);

}  // namespace footing
