#include "acquisition/device/emulated_source.h"

#include <cmath>

namespace footing {

Result<DeviceDescription> EmulatedSource::open(std::chrono::milliseconds /*patience*/) {
    return device_.description();
}

Result<SourceState> EmulatedSource::poll(FrameSink& sink, std::chrono::milliseconds /*patience*/) {
    const auto frames = static_cast<std::uint64_t>(std::ceil(step_s_ * device_.description().rate_hz));
    for (std::uint64_t i = 0; i < frames; ++i) {
        const std::optional<FrameView> frame = device_.next();
        if (!frame) return SourceState::finished;
        ++losses_.frames;
        sink.take_frame(*frame);
    }
    return SourceState::running;
}

}  // namespace footing
