#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/lesson/recording_session.h"

namespace footing {

/// Watches a recording under way for what the coach must know at once: no frame came (R2), another device
/// plugged in instead (R7), one of several devices gone while the others go on, a disk that will soon be full
/// (R9). Each is told once, when it begins and when it is over, and is noted in the recording. One thread.
class RecordingAlarms {
  public:
    /// One sentence for each thing that changed since the last look. Call a few times a second at least.
    [[nodiscard]] std::vector<std::string> look(const RecordingProgress& progress,
                                                RecordingSession& recording);

  private:
    void look_for_silence(const RecordingProgress& progress, RecordingSession& recording,
                          std::vector<std::string>& told);
    void look_for_devices(const RecordingProgress& progress, RecordingSession& recording,
                          std::vector<std::string>& told);
    void look_at_disk(const RecordingProgress& progress, RecordingSession& recording,
                      std::vector<std::string>& told);

    bool silent_ = false;
    std::vector<double> silent_since_s_;  ///< of each of several devices, in recorded time; below 0: it sends
    std::uint64_t foreign_before_ = 0;    ///< when the silence began
    bool stranger_told_ = false;
    bool disk_told_ = false;
};

/// With less disk left than this the coach is told (a proposed figure).
inline constexpr double few_minutes_left = 10.0;

}  // namespace footing
