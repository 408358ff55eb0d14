#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/pipeline/session.h"
#include "acquisition/record/fold.h"
#include "acquisition/record/recording.h"
#include "viewer/lesson/journal_thread.h"

namespace footing {

struct RecordingRequest {
    std::filesystem::path out;  ///< the recording; its journal stands beside it until it is closed
    Hand hand = Hand::right;
    std::string calibration_json;  ///< the record in force (already checked to be one); empty: nominal
    std::chrono::milliseconds patience{10'000};  ///< to wait for the first device
};

/// Proof that it records (U2), read at any time.
struct RecordingProgress {
    SessionState state = SessionState::idle;
    std::uint64_t frames_on_disk = 0;
    double duration_s = 0.0;       ///< by the device's clock
    double newest_age_s = 0.0;     ///< since the newest frame came; since the start before the first
    double silence_limit_s = 0.1;  ///< an older newest frame is an alarm (R2): five periods, at least 100 ms
    LossCounters losses;
    std::optional<double> jitter_ms;  ///< of arrivals, standard deviation; once it is known
    std::uint64_t bytes_on_disk = 0;
    std::optional<double> minutes_left;  ///< of disk at the rate measured so far, room for the fold kept (R9)
    std::optional<Problem> problem;      ///< why no more is recorded, once that is so

    [[nodiscard]] bool is_silent() const { return newest_age_s > silence_limit_s; }
};

/// Why a recording is stopped; decides its outcome together with what was lost.
enum class StopReason {
    asked,   ///< by the coach, or what was asked for is complete
    silent,  ///< the device stopped sending
};

/// A recording under way: source, session, journal and in the end the fold. For the command line and the
/// window alike.
///
/// Threads: the device thread (Session), the journal thread (drains the deep queue into the journal; owns the
/// file), and the owner, which calls everything here but progress(), note() and mark_swing(); those are for
/// any thread.
class RecordingSession {
  public:
    /// Checks that `out` is free, waits for the device, creates the journal and begins. Fails with
    /// command_line when `out` or its journal exists, device_failed when nothing is heard, bad_input when the
    /// calibration is for another device, disk_failed. The clock outlives the session.
    [[nodiscard]] static Result<std::unique_ptr<RecordingSession>> start(std::unique_ptr<FrameSource> source,
                                                                         RecordingRequest request,
                                                                         const Clock& clock);
    ~RecordingSession();
    RecordingSession(const RecordingSession&) = delete;
    RecordingSession& operator=(const RecordingSession&) = delete;

    [[nodiscard]] RecordingProgress progress() const;
    /// Something happened that is no frame; goes into the recording with the time of this call.
    void note(std::string text);
    /// A swing was found live.
    void mark_swing(const SwingMark& swing);

    /// Ends the recording: takes what has come, closes the journal, folds it, removes it. After an error the
    /// journal is still there and the problem says how to go on. Once.
    [[nodiscard]] Result<SalvageReport> stop(StopReason reason);

    [[nodiscard]] const DeviceDescription& device() const { return info_.device; }
    [[nodiscard]] Hand hand() const { return info_.hand; }
    /// The calibration asked for, else the device's nominal one.
    [[nodiscard]] Calibration calibration() const;
    /// To be drained by the one thread that shows frames live.
    [[nodiscard]] LiveQueue& live_queue() { return session_->live_queue(); }
    [[nodiscard]] std::string source_name() const { return session_->name(); }

  private:
    RecordingSession(std::unique_ptr<Session> session, RecordingRequest request, RecordingInfo info,
                     const Clock& clock);

    void settle_outcome(RecordingInfo& info, StopReason reason) const;

    RecordingRequest request_;
    RecordingInfo info_;
    const Clock& clock_;
    std::unique_ptr<Session> session_;
    std::unique_ptr<JournalThread> journal_;  ///< last: it is joined before anything that it uses goes
};

/// One sentence for people: what was recorded, where, how it ended (R11).
[[nodiscard]] std::string describe_recording(const RecordingInfo& info, double duration_s,
                                             const std::filesystem::path& file);

/// How the clocks agree, in words: "the device's is 20.0 ppm fast; arrivals vary by 0.3 ms, …".
[[nodiscard]] std::string describe_clock(const ClockFit& fit);

/// What was lost, in words: "12 frames lost, 3 packets damaged"; empty when nothing was.
[[nodiscard]] std::string describe_losses(const LossCounters& losses);

}  // namespace footing
