#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "acquisition/device/link.h"
#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"

namespace footing {

struct LiveSourceOptions {
    /// From a layout file: for boards that do not describe themselves. Wins over what a device says.
    std::optional<DeviceDescription> layout;
    /// Called during open only, with one sentence that the coach should know and that is no failure.
    std::function<void(const std::string&)> tell;
};

/// Plates or a mat on a line: the device's side of FrameSource. Waits for the device's description, then
/// hands out its frames in order. On a serial line it finds out by itself whether packets or text lines come.
///
/// The first device heard is the device (R21): on the network its address and its serial number are kept, and
/// whatever else comes is dropped and counted as foreign. Only after a second of silence may the same serial
/// number come from the same address with another port, as it does when a device restarts. A serial line that
/// is unplugged is opened again as soon as it is back (R7); the same goes on, after one gap.
class LiveSource final : public FrameSource {
  public:
    /// `clock` outlives the source.
    LiveSource(std::unique_ptr<Link> link, LiveSourceOptions options, const Clock& clock);
    ~LiveSource() override;

    Result<DeviceDescription> open(std::chrono::milliseconds patience) override;
    /// waiting: no frame for five periods or 100 ms, whichever is longer (R2), or the line is unplugged.
    /// Never fails once open: a device that is gone may come back.
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) override;
    [[nodiscard]] LossCounters losses() const override;
    [[nodiscard]] std::string name() const override;

  private:
    class Intake;
    std::unique_ptr<Intake> intake_;
};

}  // namespace footing
