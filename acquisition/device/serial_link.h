#pragma once

#include <memory>

#include "acquisition/device/endpoint.h"
#include "acquisition/device/link.h"
#include "acquisition/frame/clock.h"

namespace footing {

/// A serial port (or a pty), raw: 8 data bits, no parity, 1 stop bit, no flow control. Opened for this
/// program alone (R8). After an unplug, open succeeds again as soon as the path is back.
class SerialLink final : public Link {
  public:
    /// `clock` outlives the link.
    SerialLink(SerialPort port, const Clock& clock);
    ~SerialLink() override;

    Outcome open() override;
    void close() override;
    Outcome receive(PieceTaker& taker, std::chrono::milliseconds patience) override;
    [[nodiscard]] LinkKind kind() const override { return LinkKind::serial_stream; }
    [[nodiscard]] std::string name() const override;

  private:
    struct Line;
    std::unique_ptr<Line> line_;
};

}  // namespace footing
