#pragma once

#include <chrono>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "acquisition/frame/frame_source.h"
#include "acquisition/pipeline/session.h"

namespace footing {

/// How long devices are waited for.
struct DevicePatience {
    std::chrono::milliseconds most{10'000};
    std::function<bool()> given_up;  ///< asked by several threads; empty: never
    /// A line on which nothing is heard yet; told by several threads.
    std::function<void(const std::string& line, const Problem&)> still_silent;
};

struct StartedDevices {
    std::vector<std::unique_ptr<Session>> sessions;
    std::vector<DeviceDescription> devices;
};

/// Starts all devices, each with a session of its own, and waits for them at once. The queues of those that
/// are there do not fill meanwhile. Fails as FrameSource::open does, and as soon as one of them cannot be
/// opened: the others are then no longer waited for.
[[nodiscard]] Result<StartedDevices> start_devices(std::vector<std::unique_ptr<FrameSource>> sources,
                                                   const DevicePatience& patience);

}  // namespace footing
