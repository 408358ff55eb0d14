#include "viewer/lesson/lesson_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/calibrate/zero_words.h"
#include "analysis/pressure/trace_piece.h"
#include "viewer/lesson/live_lesson.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

constexpr auto look_period = std::chrono::milliseconds(4);
/// Between two publications while somebody stands there; and of what only counts on.
constexpr std::int64_t moving_ns = 16'000'000;
constexpr std::int64_t counting_ns = 250'000'000;
constexpr auto for_as_long_as_it_takes = std::chrono::hours(24);
/// The load must stay within this, for so long, to tell what the student weighs: who bends the knees or
/// begins to swing slowly is heavier and lighter, though the feet stand still.
constexpr double most_load_range = 0.02;
constexpr double steady_for_weight_s = 1.0;
/// Kept on both sides of a swing for its replay.
constexpr double margin_s = 0.25;

/// Whether somebody who looks at the screen could tell the two apart, but for counters.
bool looks_different(const LiveView& a, const LiveView& b) {
    const auto far = [](const std::optional<double>& x, const std::optional<double>& y, double step) {
        if (x.has_value() != y.has_value()) return true;
        return x && std::abs(*x - *y) >= step;
    };
    return a.stage != b.stage || a.lesson != b.lesson || a.set_up.stance != b.set_up.stance ||
           a.set_up.settled.has_value() != b.set_up.settled.has_value() ||
           far(a.set_up.share, b.set_up.share, 0.001) || far(a.set_up.bob_share, b.set_up.bob_share, 0.001) ||
           a.problem.has_value() != b.problem.has_value() || is_lossy(a) != is_lossy(b) ||
           a.progress.is_silent() != b.progress.is_silent() ||
           a.progress.is_partly_silent() != b.progress.is_partly_silent();
}

}  // namespace

LessonRun::LessonRun(LessonPlan plan, const Clock& clock, std::function<void()> changed)
    : plan_(std::move(plan)), clock_(clock), changed_(std::move(changed)) {
    now_.file = plan_.out.string();
    now_.weight_n = plan_.weight_n;
    gathered_ = std::make_shared<LessonResult>();
    gathered_->facts.student = plan_.student;
    gathered_->facts.hand = plan_.hand;
    gathered_->facts.file = now_.file;
    gathered_->band = plan_.band;
    gathered_->body_weight_n = plan_.weight_n;
    now_.lesson = std::make_shared<const LessonResult>(*gathered_);
    view_ = std::make_shared<const LiveView>(now_);
    thread_ = std::thread([this] { run(); });
}

LessonRun::~LessonRun() {
    ask_to_stop();
    thread_.join();
}

std::shared_ptr<const LiveView> LessonRun::view() const {
    const std::scoped_lock lock(mutex_);
    return view_;
}

void LessonRun::note(std::string text) {
    const std::scoped_lock lock(mutex_);
    notes_.push_back(std::move(text));
}

void LessonRun::ask_to_stop() {
    {
        const std::scoped_lock lock(mutex_);
        stop_asked_ = true;
    }
    stop_wakes_.notify_all();
}

std::vector<std::string> LessonRun::take_notes() {
    const std::scoped_lock lock(mutex_);
    return std::exchange(notes_, {});
}

void LessonRun::publish() {
    auto view = std::make_shared<const LiveView>(now_);
    {
        const std::scoped_lock lock(mutex_);
        view_ = std::move(view);
    }
    if (changed_) changed_();
}

void LessonRun::fail(Problem problem) {
    now_.stage = LessonStage::failed;
    now_.problem = std::move(problem);
    over_.store(true, std::memory_order_release);
    publish();
}

void LessonRun::run() {
    began_ns_ = clock_.steady_ns();
    Result<std::vector<std::unique_ptr<FrameSource>>> sources = plan_.make_sources();
    if (!sources) return fail(sources.problem());
    for (const auto& source : sources.value())
        now_.source += (now_.source.empty() ? "" : " and ") + source->name();
    publish();
    RecordingRequest request;
    request.out = plan_.out;
    request.hand = plan_.hand;
    request.calibrations = plan_.calibrations;
    request.kept_calibration = plan_.kept_calibration;
    request.patience = for_as_long_as_it_takes;
    request.given_up = [this] { return stop_asked_.load(); };
    request.still_silent = [this, several = sources.value().size() > 1](const std::string& source,
                                                                        const Problem& problem) {
        say_silent(several ? source : "", problem);
    };
    Result<std::unique_ptr<RecordingSession>> started =
        RecordingSession::start(std::move(sources).value(), std::move(request), clock_);
    if (!started) {
        if (!stop_asked_) return fail(started.problem());
        now_.stage = LessonStage::closed;  // given up before anything was recorded
        over_.store(true, std::memory_order_release);
        return publish();
    }
    watch(*started.value());
    close(*started.value());
}

void LessonRun::say_silent(const std::string& source, const Problem& problem) {
    const std::scoped_lock lock(waiting_);
    now_.waited_s = static_cast<double>(clock_.steady_ns() - began_ns_) * seconds_per_ns;
    now_.hint = problem.kind == ProblemKind::bad_input ? sentence(problem) : problem.remedy;
    if (!source.empty()) now_.hint = source + ": " + now_.hint;
    publish();
}

void LessonRun::watch(RecordingSession& recording) {
    const DeviceDescription& device = recording.device();
    const Calibration calibration = recording.calibration();
    const std::string today = iso_date(clock_.utc_ns());
    LiveLesson live(device, calibration, plan_.hand, plan_.band, today);
    now_.stage = LessonStage::running;
    now_.hint.clear();
    now_.device = recording.device_names();
    now_.uuid = recording.uuid();
    now_.start_utc_ns = recording.start_utc_ns();
    now_.zone = recording.zone();
    now_.calibration = describe_calibration(calibration, today);
    now_.calibration_state = calibration_state(calibration, today);
    gathered_->rate_hz = device.rate_hz;
    gathered_->facts.layout = device.layout;
    gathered_->facts.device = now_.device;
    gathered_->facts.calibration = now_.calibration;
    now_.lesson = std::make_shared<const LessonResult>(*gathered_);
    LiveView shown = now_;
    std::int64_t published_ns = 0;
    while (!stop_asked_) {
        recording.drain_live(live);
        for (std::string& text : take_notes()) recording.note(std::move(text));
        for (; zeros_noted_ < live.zeros().size(); ++zeros_noted_)
            recording.note(zero_note(live.zeros()[zeros_noted_], device.layout.kind));
        take_new_swings(live, recording);
        update(live, recording);
        const std::int64_t now_ns = clock_.steady_ns();
        const bool moves = now_.set_up.stance != Stance::nobody || looks_different(now_, shown);
        const std::int64_t due_ns = moves ? moving_ns : counting_ns;
        if (now_ns - published_ns >= due_ns) {
            published_ns = now_ns;
            publish();
            shown = now_;
        }
        std::unique_lock lock(mutex_);
        stop_wakes_.wait_for(lock, look_period, [this] { return stop_asked_.load(); });
    }
    recording.drain_live(live);
    take_new_swings(live, recording);
    if (taken_whole_ < gathered_->swings.size())
        recording.mark_swing({gathered_->swings.back().from_s, gathered_->swings.back().to_s});
    for (std::string& text : take_notes()) recording.note(std::move(text));
}

void LessonRun::take_new_swings(const LiveLesson& live, RecordingSession& recording) {
    if (taken_whole_ == live.completed_swings() && gathered_->swings.size() == live.swings().size()) return;
    if (gathered_->swings.size() > taken_whole_) {  // the last one again, now that more of it is known
        gathered_->swings.resize(taken_whole_);
        cut_trace(gathered_->trace, samples_of_whole_);
    }
    for (std::size_t place = taken_whole_; place < live.swings().size(); ++place) {
        const Swing& swing = live.swings()[place];
        append_piece(gathered_->trace, live.stretch(swing.from_s - margin_s, swing.to_s + margin_s));
        gathered_->swings.push_back(swing);
        if (place >= live.completed_swings()) break;
        recording.mark_swing({swing.from_s, swing.to_s});
        taken_whole_ = place + 1;
        samples_of_whole_ = gathered_->trace.size();
    }
    for (std::size_t place = 0; place < gathered_->swings.size(); ++place) {
        gathered_->swings[place].kind = live.swings()[place].kind;
        gathered_->swings[place].kind_source = live.swings()[place].kind_source;
    }
    gathered_->duration_s = gathered_->trace.time_s.empty() ? 0.0 : gathered_->trace.time_s.back();
    gathered_->facts.losses = recording.progress().losses;
    now_.lesson = std::make_shared<const LessonResult>(*gathered_);
}

void LessonRun::update(const LiveLesson& live, const RecordingSession& recording) {
    look_at_progress(recording.progress());
    now_.newest_time_us = live.newest_time_us();
    now_.set_up = live.set_up();
    if (now_.progress.is_silent() || now_.progress.is_partly_silent()) now_.set_up = {};
    now_.zero_age_s = live.zero_age_s();
    now_.zero_advice = live.zero_advice(now_.weight_n.value_or(0.0));
    compare_weight();
}

void LessonRun::compare_weight() {
    const SetUpReading& now = now_.set_up;
    if (now.stance != Stance::still) {
        weighing_ = {};
        return;
    }
    if (weighing_.looks > 0) {
        weighing_.least_n = std::min(weighing_.least_n, now.total_n);
        weighing_.most_n = std::max(weighing_.most_n, now.total_n);
    }
    if (weighing_.looks == 0 || weighing_.most_n - weighing_.least_n > most_load_range * now.total_n)
        weighing_ = {now.still_for_s, now.total_n, now.total_n, 0.0, 0};
    weighing_.sum_n += now.total_n;
    ++weighing_.looks;
    if (now.still_for_s - weighing_.from_s < steady_for_weight_s) return;
    const double mean_n = weighing_.sum_n / static_cast<double>(weighing_.looks);
    if (!now_.weight_n) {
        now_.weight_n = mean_n;
        gathered_->body_weight_n = now_.weight_n;
    }
    now_.weight_difference = mean_n / *now_.weight_n - 1.0;
}

/// Counters that run too fast to be read are told a few times a second; what alarms is told at once.
void LessonRun::look_at_progress(RecordingProgress progress) {
    const RecordingProgress& told = now_.progress;
    const bool alarms = progress.is_silent() || progress.is_partly_silent() || progress.problem;
    const bool alarmed = told.is_silent() || told.is_partly_silent() || told.problem;
    const std::int64_t now_ns = clock_.steady_ns();
    if (!alarms && !alarmed && now_ns - counted_ns_ < counting_ns) return;
    counted_ns_ = now_ns;
    now_.recent_loss = recent_loss_.take(now_ns, progress.losses);
    now_.progress = std::move(progress);
    now_.problem = now_.progress.problem;
}

void LessonRun::close(RecordingSession& recording) {
    now_.stage = LessonStage::closing;
    publish();
    Result<SalvageReport> report = recording.stop(StopReason::asked);
    if (!report) return fail(report.problem());
    now_.stage = LessonStage::closed;
    now_.closing_words = describe_recording(report.value().info, report.value().duration_s, plan_.out);
    over_.store(true, std::memory_order_release);
    publish();
}

}  // namespace footing
