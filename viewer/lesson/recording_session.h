#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/join/live_joiner.h"
#include "acquisition/pipeline/session.h"
#include "acquisition/record/fold.h"
#include "acquisition/record/recording.h"
#include "viewer/lesson/journal_thread.h"

namespace footing {

struct RecordingRequest {
    std::filesystem::path out;  ///< the recording; its journal stands beside it until it is closed
    Hand hand = Hand::right;
    std::string calibration_json;  ///< the record in force (already checked to be one); empty: nominal
    /// The same of several devices: one a device at most, each tied to its device by the serial number.
    std::vector<std::string> calibrations;
    /// The newest record that is kept for a device of which none is given above; empty text: none.
    std::function<std::string(const DeviceDescription&)> kept_calibration;
    std::chrono::milliseconds patience{10'000};  ///< to wait for the first device
    /// Whether the devices are no longer waited for; asked by several threads. Empty: they are.
    std::function<bool()> given_up;
    /// A line on which nothing is heard yet; told by several threads.
    std::function<void(const std::string& line, const Problem&)> still_silent;
};

/// One of several devices, while it records.
struct DeviceProgress {
    std::string name;  ///< with its serial number
    double newest_age_s = 0.0;
    double silence_limit_s = 0.1;
    [[nodiscard]] bool is_silent() const { return newest_age_s > silence_limit_s; }
};

/// Proof that it records (U2), read at any time.
struct RecordingProgress {
    SessionState state = SessionState::idle;
    std::uint64_t frames_on_disk = 0;
    double duration_s = 0.0;       ///< by the device's clock
    double newest_age_s = 0.0;     ///< since the newest frame of any device; since the start before it
    double silence_limit_s = 0.1;  ///< an older newest frame is an alarm (R2): five periods, at least 100 ms
    LossCounters losses;
    std::optional<double> jitter_ms;           ///< of arrivals, standard deviation; once it is known
    std::optional<double> joined_residual_ms;  ///< of the time that several devices have in common
    std::vector<DeviceProgress> devices;       ///< of several
    std::uint64_t bytes_on_disk = 0;
    std::optional<double> minutes_left;  ///< of disk at the rate measured so far, room for the fold kept (R9)
    std::optional<Problem> problem;      ///< why no more is recorded, once that is so

    [[nodiscard]] bool is_silent() const { return newest_age_s > silence_limit_s; }
    /// One of several devices is silent, so that frames cannot be joined.
    [[nodiscard]] bool is_partly_silent() const;
};

/// Why a recording is stopped; decides its outcome together with what was lost.
enum class StopReason {
    asked,   ///< by the coach, or what was asked for is complete
    silent,  ///< the device stopped sending
};

/// A recording under way: source, session, journal and in the end the fold. For the command line and the
/// window alike.
///
/// Several sources are several devices with clocks of their own, recorded as one lesson: each has its own
/// session, and one that goes silent does not hold up the others.
///
/// Threads: the device threads (Session), the journal thread (drains the deep queue into the journal; owns
/// the file), and the owner, which calls everything here but progress(), note() and mark_swing(); those are
/// for any thread.
class RecordingSession {
  public:
    /// Checks that `out` is free, waits for the device, creates the journal and begins. Fails with
    /// command_line when `out` or its journal exists, device_failed when nothing is heard, bad_input when the
    /// calibration is for another device, disk_failed. The clock outlives the session.
    [[nodiscard]] static Result<std::unique_ptr<RecordingSession>> start(std::unique_ptr<FrameSource> source,
                                                                         RecordingRequest request,
                                                                         const Clock& clock);
    /// The same with several devices, of which the first one's clock is the time base. Fails besides as
    /// join_devices() does.
    [[nodiscard]] static Result<std::unique_ptr<RecordingSession>> start(
        std::vector<std::unique_ptr<FrameSource>> sources, RecordingRequest request, const Clock& clock);
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
    /// By what the recording is known, from its first moment on.
    [[nodiscard]] const std::string& uuid() const { return info_.uuid; }
    [[nodiscard]] std::int64_t start_utc_ns() const { return info_.start.utc_ns; }
    [[nodiscard]] const std::string& zone() const { return info_.zone; }
    [[nodiscard]] Hand hand() const { return info_.hand; }
    /// The calibration asked for, else the device's nominal one.
    [[nodiscard]] Calibration calibration() const;
    /// With one device: to be drained by the one thread that shows frames live.
    [[nodiscard]] LiveQueue& live_queue() { return sessions_.front()->live_queue(); }
    /// With any number, for that thread too: hands out what came since the last call, joined where there
    /// are several devices, and returns how many frames came.
    std::size_t drain_live(FrameSink& sink);
    /// With their serial numbers, for people.
    [[nodiscard]] std::string device_names() const;
    [[nodiscard]] const std::string& source_name() const { return info_.origin; }

  private:
    using Sessions = std::vector<std::unique_ptr<Session>>;
    RecordingSession(Sessions sessions, RecordingRequest request, RecordingInfo info, const Clock& clock);

    [[nodiscard]] std::int64_t newest_ns(const Session& session) const;
    [[nodiscard]] double age_s(std::int64_t newest_ns) const;
    [[nodiscard]] LossCounters losses() const;
    [[nodiscard]] std::optional<Problem> session_problem() const;
    void settle_outcome(RecordingInfo& info, StopReason reason) const;

    RecordingRequest request_;
    RecordingInfo info_;
    const Clock& clock_;
    Sessions sessions_;
    std::unique_ptr<LiveJoiner> joiner_;      ///< with several devices; of the thread that shows frames
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
