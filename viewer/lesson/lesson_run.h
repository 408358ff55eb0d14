#pragma once

#include <atomic>
#include <condition_variable>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/result.h"
#include "acquisition/frame/units.h"
#include "analysis/swing/verdict.h"
#include "viewer/lesson/live_view.h"
#include "viewer/lesson/recent_loss.h"

namespace footing {

class LiveLesson;
class RecordingSession;

/// What a lesson is begun with.
struct LessonPlan {
    /// Makes the sources, one a device, not opened yet; called once, on the lesson's thread. Several are
    /// recorded as one (RecordingSession).
    std::function<Result<std::vector<std::unique_ptr<FrameSource>>>()> make_sources;
    std::filesystem::path out;  ///< the recording; must not exist
    std::string student;        ///< for people only
    Hand hand = Hand::right;
    TargetBand band;
    std::vector<std::string> calibrations;  ///< the records in force, one a device at most; none: nominal
    /// The newest record that is kept for a device of which none is given; empty text: none.
    std::function<std::string(const DeviceDescription&)> kept_calibration;
    std::optional<double> weight_n;  ///< of the student; absent: the first quiet standing tells it
};

/// A lesson under way, from looking for the plates to the closed recording, on a thread of its own: it starts
/// the recording, drains the live queue, finds set-up and swings, and hands out what the screen shows.
/// Nothing here makes the caller wait but the destructor, which closes the recording. For the window and the
/// command line alike.
///
/// Threads: the lesson's thread owns session and live lesson; everything public may be called from any
/// thread.
class LessonRun {
  public:
    /// `changed` is called on the lesson's thread when view() has something new to show, at most 40 times a
    /// second. The clock outlives the run.
    LessonRun(LessonPlan plan, const Clock& clock, std::function<void()> changed);
    ~LessonRun();
    LessonRun(const LessonRun&) = delete;
    LessonRun& operator=(const LessonRun&) = delete;

    [[nodiscard]] std::shared_ptr<const LiveView> view() const;
    /// Goes into the recording with the time of this call; dropped before the recording has begun.
    void note(std::string text);
    /// Ends the lesson: gives up looking for plates, or closes the recording. Returns at once; view() tells
    /// when.
    void ask_to_stop();
    [[nodiscard]] bool is_over() const { return over_.load(std::memory_order_acquire); }

  private:
    void run();
    void say_silent(const std::string& source, const Problem& problem);
    void watch(RecordingSession& recording);
    void close(RecordingSession& recording);
    void take_new_swings(const LiveLesson& live, RecordingSession& recording);
    void update(const LiveLesson& live, const RecordingSession& recording);
    void compare_weight();
    void look_at_progress(RecordingProgress progress);
    void fail(Problem problem);
    void publish();
    [[nodiscard]] std::vector<std::string> take_notes();

    LessonPlan plan_;
    const Clock& clock_;
    std::function<void()> changed_;

    // Of the lesson's thread:
    LiveView now_;  ///< what is published next
    std::shared_ptr<LessonResult>
        gathered_;                      ///< the lesson so far, copied for each publication of a new swing
    std::size_t taken_whole_ = 0;       ///< of its swings, those that do not change any more
    std::size_t samples_of_whole_ = 0;  ///< of its trace, those up to the end of these swings
    std::size_t zeros_noted_ = 0;
    std::int64_t began_ns_ = 0;
    std::int64_t counted_ns_ = 0;  ///< when counters were told last
    RecentLoss recent_loss_;
    /// The load since it has been steady.
    struct Weighing {
        double from_s = 0.0;  ///< of the time that somebody has stood still
        double least_n = 0.0;
        double most_n = 0.0;
        double sum_n = 0.0;
        std::size_t looks = 0;
    };
    Weighing weighing_;

    mutable std::mutex mutex_;  ///< for the two below; held for no longer than a copy takes
    std::shared_ptr<const LiveView> view_;
    std::vector<std::string> notes_;

    std::mutex waiting_;  ///< several devices are waited for at once, on threads of their own

    std::atomic<bool> stop_asked_{false};
    std::atomic<bool> over_{false};
    std::condition_variable stop_wakes_;
    std::thread thread_;  ///< last: it uses all of the above
};

}  // namespace footing
