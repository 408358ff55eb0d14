#include "viewer/lesson/recording_alarms.h"

#include <fmt/format.h>

#include <algorithm>

namespace footing {

std::vector<std::string> RecordingAlarms::look(const RecordingProgress& progress,
                                               RecordingSession& recording) {
    std::vector<std::string> told;
    look_for_silence(progress, recording, told);
    look_for_devices(progress, recording, told);
    look_at_disk(progress, recording, told);
    return told;
}

void RecordingAlarms::look_for_silence(const RecordingProgress& progress, RecordingSession& recording,
                                       std::vector<std::string>& told) {
    if (progress.frames_on_disk == 0) return;
    if (progress.is_silent() && !silent_) {
        silent_ = true;
        foreign_before_ = progress.losses.foreign;
        told.push_back(fmt::format("NO FRAME for {:.0f} ms: is the device still on and connected?",
                                   progress.newest_age_s * 1000.0));
        recording.note("no frames come");
    } else if (!progress.is_silent() && silent_) {
        silent_ = false;
        stranger_told_ = false;
        told.push_back("frames come again");
        recording.note("frames come again");
    }
    if (silent_ && !stranger_told_ && progress.losses.foreign > foreign_before_) {
        stranger_told_ = true;
        told.push_back(
            fmt::format("another device sends here, and is not recorded: connect {} (serial number {}) "
                        "again, or stop and begin anew",
                        recording.device().name, recording.device().serial));
        recording.note("another device sends here; it is not recorded");
    }
}

void RecordingAlarms::look_for_devices(const RecordingProgress& progress, RecordingSession& recording,
                                       std::vector<std::string>& told) {
    if (progress.frames_on_disk == 0 || progress.is_silent()) return;
    silent_since_s_.resize(progress.devices.size(), -1.0);
    for (std::size_t i = 0; i < progress.devices.size(); ++i) {
        const DeviceProgress& device = progress.devices[i];
        double& since_s = silent_since_s_[i];
        if (device.is_silent() && since_s < 0.0) {
            since_s = std::max(0.0, progress.duration_s - device.newest_age_s);
            const std::string words = device.name +
                                      " sends nothing: is it on and connected? The recording goes on "
                                      "with the other; lead shares are left out until it is back";
            told.push_back(words);
            recording.note(words);
        } else if (!device.is_silent() && since_s >= 0.0) {
            const std::string words =
                fmt::format("{} sends again after {:.1f} s; lead shares are known again", device.name,
                            progress.duration_s - since_s);
            since_s = -1.0;
            told.push_back(words);
            recording.note(words);
        }
    }
}

void RecordingAlarms::look_at_disk(const RecordingProgress& progress, RecordingSession& recording,
                                   std::vector<std::string>& told) {
    if (disk_told_ || !progress.minutes_left || *progress.minutes_left >= few_minutes_left) return;
    disk_told_ = true;
    told.push_back(fmt::format("the disk will be full in {:.0f} min: free some space, or stop soon",
                               *progress.minutes_left));
    recording.note(fmt::format("disk for {:.0f} min left", *progress.minutes_left));
}

}  // namespace footing
