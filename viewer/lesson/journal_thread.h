#pragma once

#include <atomic>
#include <cstdint>
#include <deque>
#include <filesystem>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "acquisition/decode/clock_fitter.h"
#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/pipeline/session.h"
#include "acquisition/record/journal_writer.h"

namespace footing {

/// Owns the journal's file: drains the recorder's queues into it, flushes by time, watches the room on the
/// disk. With several sessions each is one of several devices, in order.
class JournalThread {
  public:
    /// The sessions have started and outlive this.
    JournalThread(JournalWriter writer, std::vector<Session*> sessions, const Clock& clock,
                  std::filesystem::path journal);
    ~JournalThread();
    JournalThread(const JournalThread&) = delete;
    JournalThread& operator=(const JournalThread&) = delete;

    // Any thread:
    void add(RecordingNote note);
    void add(const SwingMark& swing);
    [[nodiscard]] std::uint64_t frames() const { return frames_.load(std::memory_order_relaxed); }
    [[nodiscard]] std::uint64_t bytes() const { return bytes_.load(std::memory_order_relaxed); }
    /// From the first frame to the newest, by the device's clock; of several devices the longest.
    [[nodiscard]] double duration_s() const;
    /// How well the devices' frames are known to belong together in time; nothing with one device and in the
    /// first moments.
    [[nodiscard]] std::optional<double> joined_residual_ms() const;
    /// Of arrivals about the device's clock, standard deviation, of several devices the largest; nothing in
    /// the first moments.
    [[nodiscard]] std::optional<double> jitter_ms() const;
    [[nodiscard]] std::uint64_t free_bytes() const { return free_bytes_.load(std::memory_order_relaxed); }
    /// Why no more is written; nothing while all is well.
    [[nodiscard]] std::optional<Problem> problem() const;

    /// Owner: takes what is still in the queue and ends the thread. The session must have been stopped.
    void finish();
    /// Owner, after finish(): ends the journal with these facts and lets go of the file. Once.
    void close(const RecordingInfo& final_facts);

  private:
    class Sink;
    void run();
    bool work_once();
    void write_events();
    void watch_disk(std::int64_t now_ns);
    void fail(Problem problem);
    void tell_of_clocks();

    /// What is known of one device's frames so far.
    struct Device {
        Session* session = nullptr;
        std::uint16_t number = 0;  ///< in the journal
        std::atomic<std::uint64_t> first_time_us{0};
        std::atomic<std::uint64_t> newest_time_us{0};
        ClockFitter clock_fit;  ///< of the journal thread
    };

    std::optional<JournalWriter> writer_;  ///< until close()
    std::deque<Device> devices_;
    const Clock& clock_;
    std::filesystem::path path_;
    std::atomic<std::uint64_t> frames_{0};
    std::atomic<std::uint64_t> bytes_{0};
    std::atomic<double> jitter_ms_{-1.0};
    std::atomic<double> joined_residual_ms_{-1.0};
    std::atomic<std::uint64_t> free_bytes_{~std::uint64_t{0}};
    std::atomic<bool> failed_{false};
    std::int64_t looked_at_disk_ns_ = 0;
    mutable std::mutex mutex_;  ///< for the three below; never held while writing, nor by the device thread
    std::vector<RecordingNote> notes_;
    std::vector<SwingMark> swings_;
    std::optional<Problem> problem_;
    std::atomic<bool> finish_asked_{false};
    std::thread thread_;  ///< last: it uses all of the above
};

/// Bytes that folding a journal of this length may need beside it, on the safe side of what was measured
/// (docs/recording_format.md).
[[nodiscard]] std::uint64_t room_to_fold(std::uint64_t journal_bytes);

}  // namespace footing
