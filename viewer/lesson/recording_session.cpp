#include "viewer/lesson/recording_session.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "acquisition/frame/clean_text.h"
#include "acquisition/frame/count_words.h"
#include "acquisition/frame/units.h"
#include "acquisition/join/joined_device.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/journal_reader.h"
#include "acquisition/record/program_version.h"
#include "acquisition/record/recording_origin.h"
#include "viewer/lesson/local_zone.h"
#include "viewer/lesson/start_devices.h"

namespace footing {

namespace {

constexpr double periods_of_silence = 5.0;
constexpr double least_silence_s = 0.1;
/// Below this the rate of writing is not known well enough to tell how long the disk will last.
constexpr double settled_s = 2.0;
/// Characters shown of a name or a cause, which a stranger may have made long.
constexpr std::size_t most_words = 200;

double silence_limit_s(const DeviceDescription& device) {
    if (device.rate_hz <= 0.0) return least_silence_s;
    return std::max(periods_of_silence / device.rate_hz, least_silence_s);
}

Outcome check_free(const std::filesystem::path& out) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(out, ignored))) return exists_already(out);
    const std::filesystem::path journal = journal_of(out);
    if (std::filesystem::exists(std::filesystem::symlink_status(journal, ignored))) {
        return Problem{
            ProblemKind::command_line, journal.string(),
            "is the journal of an earlier recording that was not closed",
            fmt::format("save it first with: footing recover {} --out {}", journal.string(), out.string())};
    }
    const std::filesystem::path folder = out.has_parent_path() ? out.parent_path() : ".";
    if (!std::filesystem::is_directory(folder, ignored)) return disk_problem(out, "be created", ENOENT);
    return Done{};
}

std::string serial_numbers(const std::vector<DeviceDescription>& devices) {
    std::string text;
    for (const DeviceDescription& device : devices)
        text += (text.empty() ? "" : " and ") + std::to_string(device.serial);
    return text;
}

/// The record of each device by its serial number; empty text: none was given.
Result<std::vector<std::string>> records_of(const std::vector<std::string>& given,
                                            const std::vector<DeviceDescription>& devices) {
    std::vector<std::string> records(devices.size());
    for (const std::string& json : given) {
        const Result<Calibration> calibration = parse_calibration(json, "the calibration");
        if (!calibration.ok()) return calibration.problem();
        const auto device = std::find_if(devices.begin(), devices.end(), [&](const DeviceDescription& one) {
            return one.serial == calibration.value().device_serial;
        });
        if (device == devices.end() && devices.size() > 1) {
            return Problem{ProblemKind::bad_input, "the calibration",
                           fmt::format("belongs to device {}, but the plates are devices {}",
                                       calibration.value().device_serial, serial_numbers(devices)),
                           "use the calibrations of these plates"};
        }
        const std::size_t place =
            device == devices.end() ? 0 : static_cast<std::size_t>(device - devices.begin());
        if (Outcome fit = check_calibration(calibration.value(), devices[place], "the calibration");
            !fit.ok())
            return fit.problem();
        if (!records[place].empty()) {
            return Problem{ProblemKind::command_line, "the calibration",
                           fmt::format("there are two for device {}", devices[place].serial),
                           "give one for each device"};
        }
        records[place] = json;
    }
    return records;
}

/// The calibrations of several devices as one record; empty when nothing is known but what the devices say
/// alike.
std::string joined_record(const std::vector<JoinedDevice>& joined,
                          const std::vector<DeviceDescription>& devices) {
    std::vector<Calibration> calibrations;
    bool any = false;
    for (const JoinedDevice& device : joined) {
        any = any || !device.calibration_json.empty() ||
              device.device.newtons_per_count != devices.front().newtons_per_count;
        Result<Calibration> calibration = parse_calibration(device.calibration_json, "the calibration");
        calibrations.push_back(calibration.ok() ? std::move(calibration).value()
                                                : nominal_calibration(device.device, 1.0));
    }
    return any ? calibration_json(join_calibrations(calibrations, devices)) : std::string();
}

}  // namespace

Result<std::unique_ptr<RecordingSession>> RecordingSession::start(std::unique_ptr<FrameSource> source,
                                                                  RecordingRequest request,
                                                                  const Clock& clock) {
    std::vector<std::unique_ptr<FrameSource>> sources;
    sources.push_back(std::move(source));
    return start(std::move(sources), std::move(request), clock);
}

Result<std::unique_ptr<RecordingSession>> RecordingSession::start(
    std::vector<std::unique_ptr<FrameSource>> sources, RecordingRequest request, const Clock& clock) {
    if (Outcome free = check_free(request.out); !free.ok()) return free.problem();
    Result<StartedDevices> heard =
        start_devices(std::move(sources), {request.patience, request.given_up, request.still_silent});
    if (!heard.ok()) return heard.problem();
    const std::vector<DeviceDescription>& devices = heard.value().devices;
    Sessions sessions = std::move(heard.value().sessions);
    Result<DeviceDescription> device = devices.size() == 1 ? devices.front() : join_devices(devices);
    if (!device.ok()) return device.problem();
    std::vector<std::string> given = request.calibrations;
    if (!request.calibration_json.empty()) given.push_back(request.calibration_json);
    Result<std::vector<std::string>> records = records_of(given, devices);
    if (!records.ok()) return records.problem();
    for (std::size_t i = 0; request.kept_calibration && i < devices.size(); ++i) {
        if (records.value()[i].empty()) records.value()[i] = request.kept_calibration(devices[i]);
    }

    RecordingInfo info;
    info.uuid = new_uuid();
    info.zone = local_zone();
    info.start = {clock.steady_ns(), clock.utc_ns()};
    info.hand = request.hand;
    info.program_version = program_version;
    info.device = std::move(device).value();
    for (std::size_t i = 0; i < devices.size(); ++i) {
        info.origin += (i == 0 ? "" : " and ") + sessions[i]->name();
        if (devices.size() > 1)
            info.devices.push_back({devices[i], sessions[i]->name(), records.value()[i], {}, {}, {}, 0});
    }
    info.calibration_json =
        devices.size() == 1 ? records.value().front() : joined_record(info.devices, devices);
    const std::filesystem::path journal = journal_of(request.out);
    Result<JournalWriter> writer = JournalWriter::create(journal, info, clock.steady_ns());
    if (!writer.ok()) return writer.problem();

    std::unique_ptr<RecordingSession> recording(
        new RecordingSession(std::move(sessions), std::move(request), std::move(info), clock));
    std::vector<Session*> to_record;
    for (const auto& session : recording->sessions_) to_record.push_back(session.get());
    recording->journal_ =
        std::make_unique<JournalThread>(std::move(writer).value(), std::move(to_record), clock, journal);
    return recording;
}

RecordingSession::RecordingSession(Sessions sessions, RecordingRequest request, RecordingInfo info,
                                   const Clock& clock)
    : request_(std::move(request)), info_(std::move(info)), clock_(clock), sessions_(std::move(sessions)) {
    if (sessions_.size() == 1) return;
    std::vector<DeviceDescription> devices;
    for (const JoinedDevice& joined : info_.devices) devices.push_back(joined.device);
    joiner_ = std::make_unique<LiveJoiner>(devices);
}

RecordingSession::~RecordingSession() {
    for (const auto& session : sessions_) session->stop();
}

std::string RecordingSession::device_names() const {
    if (info_.devices.empty()) return device_words(info_.device);
    std::string names;
    for (const JoinedDevice& joined : info_.devices)
        names += (names.empty() ? "" : " and ") + device_words(joined.device);
    return names;
}

std::size_t RecordingSession::drain_live(FrameSink& sink) {
    if (!joiner_) return sessions_.front()->live_queue().drain(sink);
    class Joining final : public FrameSink {
      public:
        Joining(LiveJoiner& joiner, std::size_t device, FrameSink& sink)
            : joiner_(joiner), device_(device), sink_(sink) {}
        void take_frame(const FrameView& frame) override { joiner_.take_frame(device_, frame, sink_); }
        void take_gap(const Gap& gap) override { joiner_.take_gap(device_, gap); }

      private:
        LiveJoiner& joiner_;
        std::size_t device_;
        FrameSink& sink_;
    };
    std::size_t frames = 0;
    for (std::size_t device = 0; device < sessions_.size(); ++device) {
        Joining joining(*joiner_, device, sink);
        frames += sessions_[device]->live_queue().drain(joining);
    }
    return frames;
}

Calibration RecordingSession::calibration() const {
    if (!info_.calibration_json.empty()) {
        Result<Calibration> calibration = parse_calibration(info_.calibration_json, "the calibration");
        if (calibration.ok()) return std::move(calibration).value();
    }
    return nominal_calibration(info_.device, 1.0);
}

bool RecordingProgress::is_partly_silent() const {
    return std::any_of(devices.begin(), devices.end(),
                       [](const DeviceProgress& device) { return device.is_silent(); });
}

std::int64_t RecordingSession::newest_ns(const Session& session) const {
    return std::max(session.newest_host_time_ns(), info_.start.steady_ns);
}

double RecordingSession::age_s(std::int64_t newest_ns) const {
    return static_cast<double>(std::max<std::int64_t>(clock_.steady_ns() - newest_ns, 0)) * seconds_per_ns;
}

LossCounters RecordingSession::losses() const {
    LossCounters all;
    for (const auto& session : sessions_) all += session->losses();
    return all;
}

std::optional<Problem> RecordingSession::session_problem() const {
    for (const auto& session : sessions_) {
        if (const std::optional<Problem> problem = session->problem()) return problem;
    }
    return std::nullopt;
}

RecordingProgress RecordingSession::progress() const {
    RecordingProgress progress;
    progress.state = sessions_.front()->state();
    for (const auto& session : sessions_) {
        if (session->state() == SessionState::running) progress.state = SessionState::running;
    }
    for (const auto& session : sessions_) {
        if (session->state() == SessionState::failed) progress.state = SessionState::failed;
    }
    progress.frames_on_disk = journal_->frames();
    progress.duration_s = journal_->duration_s();
    std::int64_t newest = 0;
    for (const auto& session : sessions_) newest = std::max(newest, newest_ns(*session));
    progress.newest_age_s = age_s(newest);
    progress.silence_limit_s = silence_limit_s(info_.device);
    for (std::size_t i = 0; i < info_.devices.size(); ++i) {
        const DeviceDescription& device = info_.devices[i].device;
        progress.devices.push_back(
            {device_words(device), age_s(newest_ns(*sessions_[i])), silence_limit_s(device)});
    }
    progress.losses = losses();
    progress.joined_residual_ms = journal_->joined_residual_ms();
    progress.bytes_on_disk = journal_->bytes();
    progress.jitter_ms = journal_->jitter_ms();
    progress.problem = journal_->problem();
    if (!progress.problem) progress.problem = session_problem();
    const double recorded_s =
        static_cast<double>(clock_.steady_ns() - info_.start.steady_ns) * seconds_per_ns;
    if (recorded_s > settled_s && progress.bytes_on_disk > 0) {
        const double bytes_a_second = static_cast<double>(progress.bytes_on_disk) / recorded_s;
        const double with_fold = static_cast<double>(room_to_fold(1'000'000'000)) / 1e9 + 1.0;
        const std::uint64_t kept = room_to_fold(progress.bytes_on_disk);
        const std::uint64_t free_bytes = journal_->free_bytes();
        const double usable = free_bytes > kept ? static_cast<double>(free_bytes - kept) : 0.0;
        progress.minutes_left = usable / with_fold / bytes_a_second / 60.0;
    }
    return progress;
}

void RecordingSession::note(std::string text) {
    journal_->add(RecordingNote{clock_.steady_ns(), std::move(text)});
}
void RecordingSession::mark_swing(const SwingMark& swing) {
    journal_->add(swing);
}

Result<SalvageReport> RecordingSession::stop(StopReason reason) {
    for (const auto& session : sessions_) session->stop();
    journal_->finish();
    RecordingInfo info = info_;
    info.end = {clock_.steady_ns(), clock_.utc_ns()};
    info.losses = losses();
    for (std::size_t i = 0; i < info.devices.size(); ++i) info.devices[i].losses = sessions_[i]->losses();
    settle_outcome(info, reason);
    journal_->close(info);
    settle_outcome(info, reason);  // once more: closing may have failed, and the end record not be there
    const std::filesystem::path journal = journal_of(request_.out);
    Result<SalvageReport> report = fold_and_remove_journal(journal, request_.out, info);
    if (!report.ok()) {
        Problem problem = report.problem();
        problem.remedy = fmt::format("nothing is lost, all is in {}; then: footing recover {} --out FILE.h5",
                                     journal.string(), journal.string());
        return problem;
    }
    return report;
}

void RecordingSession::settle_outcome(RecordingInfo& info, StopReason reason) const {
    const std::string losses = describe_losses(info.losses);
    info.outcome = losses.empty() ? RecordingOutcome::clean : RecordingOutcome::lossy;
    info.cause = losses;
    const auto add = [&info](const std::string& cause) {
        info.cause += (info.cause.empty() ? "" : "; ") + cause;
    };
    if (const std::optional<Problem> problem =
            journal_->problem() ? journal_->problem() : session_problem()) {
        info.outcome = RecordingOutcome::incomplete;
        add(problem->what);
    } else if (reason == StopReason::silent) {
        add("the device stopped sending");
    }
}

std::string describe_losses(const LossCounters& losses) {
    std::string text;
    const auto add = [&text](std::uint64_t count, const char* one, const char* many) {
        if (count == 0) return;
        text += (text.empty() ? "" : ", ") + count_words(count, one, many);
    };
    add(losses.lost, "frame lost", "frames lost");
    add(losses.damaged, "packet damaged", "packets damaged");
    add(losses.socket_overflow, "datagram dropped by the operating system",
        "datagrams dropped by the operating system");
    add(losses.queue_overflow, "frame not written in time", "frames not written in time");
    add(losses.incomplete_grids, "grid frame incomplete", "grid frames incomplete");
    return text;
}

std::string describe_clock(const ClockFit& fit) {
    const double ppm = drift_ppm(fit);
    std::string text = fmt::format("the device's is {:.1f} ppm {}; arrivals vary by {:.2f} ms", std::abs(ppm),
                                   ppm < 0.0 ? "slow" : "fast", fit.residual_sd_ns * ms_per_ns);
    if (fit.knots.empty()) return text;
    return text + fmt::format(", the latest {:.1f} ms late; the fitted time to {:.2f} ms",
                              fit.worst_late_ns * ms_per_ns, fit.fit_residual_ns * ms_per_ns);
}

std::string describe_recording(const RecordingInfo& info, double duration_s,
                               const std::filesystem::path& file) {
    const std::string source =
        info.device.name.empty() ? origin_words(info.origin) : "from " + info.device.name;
    std::string text = fmt::format("{}: {} in {:.1f} s {}, {}", clean_text(file.string()),
                                   count_words(info.frame_count, "frame", "frames"), duration_s,
                                   clean_text(source, most_words), outcome_name(info.outcome));
    if (!info.cause.empty()) text += " (" + clean_text(info.cause, most_words) + ")";
    return text + ".";
}

}  // namespace footing
