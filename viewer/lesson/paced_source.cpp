#include "viewer/lesson/paced_source.h"

#include <algorithm>
#include <thread>

namespace footing {

Result<DeviceDescription> PacedSource::open(std::chrono::milliseconds patience) {
    auto description = source_->open(patience);
    due_ = std::chrono::steady_clock::now() + step_;
    return description;
}

Result<SourceState> PacedSource::poll(FrameSink& sink, std::chrono::milliseconds patience) {
    const auto now = std::chrono::steady_clock::now();
    if (due_ - now > patience) {
        std::this_thread::sleep_for(patience);
        return SourceState::waiting;
    }
    std::this_thread::sleep_until(due_);
    due_ += step_;
    return source_->poll(sink, patience);
}

}  // namespace footing
