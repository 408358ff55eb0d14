#include "viewer/lesson/recording_session.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "acquisition/frame/clean_text.h"
#include "acquisition/frame/units.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/journal_reader.h"
#include "acquisition/record/program_version.h"
#include "acquisition/record/recording_origin.h"
#include "viewer/lesson/local_zone.h"

namespace footing {

namespace {

constexpr double periods_of_silence = 5.0;
constexpr double least_silence_s = 0.1;
/// Below this the rate of writing is not known well enough to tell how long the disk will last.
constexpr double settled_s = 2.0;
/// Characters shown of a name or a cause, which a stranger may have made long.
constexpr std::size_t most_words = 200;

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

Outcome check_fit(const std::string& calibration_json, const DeviceDescription& device) {
    if (calibration_json.empty()) return Done{};
    const Result<Calibration> calibration = parse_calibration(calibration_json, "the calibration");
    if (!calibration.ok()) return calibration.problem();
    return check_calibration(calibration.value(), device, "the calibration");
}

}  // namespace

Result<std::unique_ptr<RecordingSession>> RecordingSession::start(std::unique_ptr<FrameSource> source,
                                                                  RecordingRequest request,
                                                                  const Clock& clock) {
    if (Outcome free = check_free(request.out); !free.ok()) return free.problem();
    auto session = std::make_unique<Session>(std::move(source));
    Result<DeviceDescription> device = session->start(request.patience);
    if (!device.ok()) return device.problem();
    if (Outcome fit = check_fit(request.calibration_json, device.value()); !fit.ok()) return fit.problem();

    RecordingInfo info;
    info.uuid = new_uuid();
    info.zone = local_zone();
    info.start = {clock.steady_ns(), clock.utc_ns()};
    info.hand = request.hand;
    info.program_version = program_version;
    info.origin = session->name();
    info.device = std::move(device).value();
    info.calibration_json = request.calibration_json;
    const std::filesystem::path journal = journal_of(request.out);
    Result<JournalWriter> writer = JournalWriter::create(journal, info, clock.steady_ns());
    if (!writer.ok()) return writer.problem();

    std::unique_ptr<RecordingSession> recording(
        new RecordingSession(std::move(session), std::move(request), std::move(info), clock));
    recording->journal_ =
        std::make_unique<JournalThread>(std::move(writer).value(), *recording->session_, clock, journal);
    return recording;
}

RecordingSession::RecordingSession(std::unique_ptr<Session> session, RecordingRequest request,
                                   RecordingInfo info, const Clock& clock)
    : request_(std::move(request)), info_(std::move(info)), clock_(clock), session_(std::move(session)) {}

RecordingSession::~RecordingSession() {
    session_->stop();
}

Calibration RecordingSession::calibration() const {
    if (!info_.calibration_json.empty()) {
        Result<Calibration> calibration = parse_calibration(info_.calibration_json, "the calibration");
        if (calibration.ok()) return std::move(calibration).value();
    }
    return nominal_calibration(info_.device, 1.0);
}

RecordingProgress RecordingSession::progress() const {
    RecordingProgress progress;
    progress.state = session_->state();
    progress.frames_on_disk = journal_->frames();
    progress.duration_s = journal_->duration_s();
    const std::int64_t newest_ns = std::max(session_->newest_host_time_ns(), info_.start.steady_ns);
    progress.newest_age_s =
        static_cast<double>(std::max<std::int64_t>(clock_.steady_ns() - newest_ns, 0)) * seconds_per_ns;
    if (info_.device.rate_hz > 0.0) {
        progress.silence_limit_s = std::max(periods_of_silence / info_.device.rate_hz, least_silence_s);
    }
    progress.losses = session_->losses();
    progress.bytes_on_disk = journal_->bytes();
    progress.jitter_ms = journal_->jitter_ms();
    progress.problem = journal_->problem();
    if (!progress.problem) progress.problem = session_->problem();
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
    session_->stop();
    journal_->finish();
    RecordingInfo info = info_;
    info.end = {clock_.steady_ns(), clock_.utc_ns()};
    info.losses = session_->losses();
    settle_outcome(info, reason);
    journal_->close(info);
    const std::filesystem::path journal = journal_of(request_.out);
    Result<SalvageReport> report = fold_and_remove_journal(journal, request_.out);
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
            journal_->problem() ? journal_->problem() : session_->problem()) {
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
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", count, count == 1 ? one : many);
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
    std::string text =
        fmt::format("{}: {} frames in {:.1f} s {}, {}", clean_text(file.string()), info.frame_count,
                    duration_s, clean_text(source, most_words), outcome_name(info.outcome));
    if (!info.cause.empty()) text += " (" + clean_text(info.cause, most_words) + ")";
    return text + ".";
}

}  // namespace footing
