#include "viewer/lesson/recording_alarms.h"

#include <fmt/format.h>

namespace footing {

std::vector<std::string> RecordingAlarms::look(const RecordingProgress& progress,
                                               RecordingSession& recording) {
    std::vector<std::string> told;
    look_for_silence(progress, recording, told);
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

void RecordingAlarms::look_at_disk(const RecordingProgress& progress, RecordingSession& recording,
                                   std::vector<std::string>& told) {
    if (disk_told_ || !progress.minutes_left || *progress.minutes_left >= few_minutes_left) return;
    disk_told_ = true;
    told.push_back(fmt::format("the disk will be full in {:.0f} min: free some space, or stop soon",
                               *progress.minutes_left));
    recording.note(fmt::format("disk for {:.0f} min left", *progress.minutes_left));
}

}  // namespace footing
