#pragma once

#include <functional>
#include <memory>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// A source whose opening can be given up: it is opened in short turns until the plates are heard, or until
/// `given_up` says so. What came of each turn is told. A failure that waiting does not mend (no such port,
/// port taken) ends the opening at once.
class PatientSource final : public FrameSource {
  public:
    /// Both are called on the opening thread after each turn.
    PatientSource(std::unique_ptr<FrameSource> source, std::function<bool()> given_up,
                  std::function<void(const Problem&)> still_silent);

    Result<DeviceDescription> open(std::chrono::milliseconds patience) override;
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) override;
    [[nodiscard]] LossCounters losses() const override { return source_->losses(); }
    [[nodiscard]] std::string name() const override { return source_->name(); }

  private:
    std::unique_ptr<FrameSource> source_;
    std::function<bool()> given_up_;
    std::function<void(const Problem&)> still_silent_;
};

}  // namespace footing
