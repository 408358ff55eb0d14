#pragma once

#include <array>
#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <thread>

#include "acquisition/frame/frame_source.h"
#include "acquisition/pipeline/frame_queue.h"
#include "acquisition/pipeline/live_queue.h"

namespace footing {

/// What happens when a queue is full.
enum class FullQueue {
    lose_and_count,     ///< for plates: they cannot wait. A frame the recorder has no room for is counted and
                        ///< leaves a gap
    wait_for_recorder,  ///< for frames that come as fast as they are taken: recorder_queue() must be drained
    wait_for_both,  ///< the same, and live_queue() must be drained too; then nothing gives way there either
};

struct SessionOptions {
    FullQueue full_queue = FullQueue::lose_and_count;
    double recorder_depth_s = 4.0;                             ///< at the device's stated rate
    std::size_t least_recorder_bytes = std::size_t{8} << 20U;  ///< whatever the rate says
    std::size_t most_recorder_bytes = std::size_t{128} << 20U;
    double live_depth_s = 1.0;
    std::size_t least_live_frames = 256;
    std::size_t most_live_bytes = std::size_t{32} << 20U;
    std::chrono::milliseconds poll_patience{20};  ///< also the longest that stop() waits for the source
};

enum class SessionState {
    idle,      ///< not started
    waiting,   ///< the device is silent: no frame for longer than its rate allows
    running,   ///< frames come
    finished,  ///< stopped, or the recording came to its end
    failed,    ///< the source failed; problem() says how
};

/// Owns a source and the thread that polls it, and puts what comes into two queues: a deep one for the
/// recorder and a shallow one for the screen. Works alike for plates on a line and for a recording played
/// again.
///
/// One thread, the owner, calls start, stop and the destructor. The recorder's thread drains
/// recorder_queue(), one thread drains live_queue(); any thread may ask losses(), state(), problem() and
/// newest_host_time_ns(). After start, the device thread allocates nothing, writes no file and takes no lock.
class Session {
  public:
    explicit Session(std::unique_ptr<FrameSource> source, SessionOptions options = {});
    ~Session();
    Session(const Session&) = delete;
    Session& operator=(const Session&) = delete;

    /// Opens the source (waits at most `patience` for its layout), makes the queues and starts the device
    /// thread. Once. Fails as FrameSource::open does.
    Result<DeviceDescription> start(std::chrono::milliseconds patience);

    /// Takes what has already come, then ends the device thread. What is in the queues stays there to be
    /// drained. May be called twice.
    void stop();

    /// Both exist from a successful start() to the end of the session.
    [[nodiscard]] FrameQueue& recorder_queue() { return *recorder_queue_; }
    [[nodiscard]] LiveQueue& live_queue() { return *live_queue_; }

    [[nodiscard]] LossCounters losses() const;
    [[nodiscard]] SessionState state() const { return state_.load(std::memory_order_acquire); }
    /// What made the session fail; nothing while it has not.
    [[nodiscard]] std::optional<Problem> problem() const;
    /// When the newest frame arrived, on the host's steady clock; 0 before the first.
    [[nodiscard]] std::int64_t newest_host_time_ns() const {
        return newest_host_time_ns_.load(std::memory_order_relaxed);
    }
    /// For people: where the frames come from.
    [[nodiscard]] std::string name() const { return name_; }

  private:
    class Distributor;

    void poll_until_stopped();
    void publish(const LossCounters& counters);

    std::unique_ptr<FrameSource> source_;
    SessionOptions options_;
    std::string name_;
    std::unique_ptr<FrameQueue> recorder_queue_;
    std::unique_ptr<LiveQueue> live_queue_;
    std::unique_ptr<Distributor> distributor_;
    std::array<std::atomic<std::uint64_t>, 9> losses_{};
    std::atomic<std::int64_t> newest_host_time_ns_{0};
    std::atomic<SessionState> state_{SessionState::idle};
    std::optional<Problem>
        problem_;  ///< written by the device thread before state_ becomes failed, never after
    std::atomic<bool> stop_asked_{false};
    std::thread device_thread_;
};

}  // namespace footing
