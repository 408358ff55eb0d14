#pragma once

#include <cmath>
#include <cstdint>
#include <filesystem>

#include "acquisition/device/emulated_device.h"
#include "acquisition/record/recording_writer.h"

namespace footing::bench {

/// Records a simulated lesson as fast as the disk takes it. With `minutes` over zero the golfer begins again,
/// as another, until the lesson is so long, and is cut off there.
[[nodiscard]] inline Outcome write_simulated_lesson(const std::filesystem::path& path,
                                                    EmulatedDeviceSettings settings, double minutes) {
    RecordingInfo info;
    info.zone = "UTC";
    info.origin = "simulated golfer";
    info.device = EmulatedDevice(settings).description();
    auto writer = RecordingWriter::create(path, info);
    if (!writer) return writer.problem();
    const auto wanted = static_cast<std::uint64_t>(std::llround(minutes * 60.0 * settings.rate_hz));
    std::uint64_t written = 0;
    do {
        EmulatedDevice device(settings);
        while (auto frame = device.next()) {
            FrameView later = *frame;
            later.stamp.counter = written;
            later.stamp.device_time_us = written * static_cast<std::uint64_t>(1e6 / settings.rate_hz);
            if (Outcome done = writer.value().append(later); !done) return done;
            if (++written == wanted) break;
        }
        ++settings.seed;
    } while (written < wanted);
    info.losses.frames = written;
    return writer.value().close(info);
}

}  // namespace footing::bench
