#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/record/recording.h"

namespace footing {

/// How fast a recording is played again.
enum class Pace {
    as_fast_as_possible,
    as_recorded,  ///< by the device's own time
};

/// A recording or a journal, played again through the same door as the plates: same frames, same gaps, same
/// order.
class ReplaySource final : public FrameSource {
  public:
    /// The clock must outlive the source; it is asked (and slept on) only with Pace::as_recorded.
    ReplaySource(std::filesystem::path path, Pace pace, const Clock& clock);
    ~ReplaySource() override;

    Result<DeviceDescription> open(std::chrono::milliseconds patience) override;
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) override;
    [[nodiscard]] LossCounters losses() const override;
    [[nodiscard]] std::string name() const override;

    /// All that the recording says of itself; after open().
    [[nodiscard]] const RecordingInfo& info() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace footing
