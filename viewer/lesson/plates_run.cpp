#include "viewer/lesson/plates_run.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/calibrate/force_converter.h"
#include "acquisition/record/safe_file.h"
#include "viewer/calibration/calibration_guide.h"
#include "viewer/calibration/calibration_words.h"
#include "viewer/calibration/line_log.h"
#include "viewer/calibration/make_calibration.h"
#include "viewer/calibration/readings_file.h"
#include "viewer/lesson/load_collector.h"
#include "viewer/lesson/patient_source.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

constexpr std::chrono::milliseconds look_period{25};
constexpr std::int64_t publish_ns = 100'000'000;
constexpr double mean_over_s = 0.25;
constexpr double rate_over_s = 1.0;
constexpr std::size_t steps_of_two_plates = 4;  // of a quick check: empty, both, left, right
constexpr std::size_t steps_of_one = 3;
constexpr double example_share = 0.75;
constexpr auto for_as_long_as_it_takes = std::chrono::hours(24);

Calibration calibration_in(const std::string& json, const DeviceDescription& device) {
    if (!json.empty()) {
        auto record = parse_calibration(json, "the calibration");
        if (record && check_calibration(record.value(), device, "the calibration"))
            return std::move(record).value();
    }
    return nominal_calibration(device, 1.0);
}

std::size_t check_steps(const DeviceDescription& device) {
    const std::vector<PlateSide> sides = plate_sides(device.layout);
    const auto has = [&](PlateSide side) { return std::ranges::find(sides, side) != sides.end(); };
    return has(PlateSide::left) && has(PlateSide::right) ? steps_of_two_plates : steps_of_one;
}

}  // namespace

/// What frames go through while plates are listened to; of the listening thread.
class PlatesRun::Listener final : public FrameSink {
  public:
    Listener(DeviceDescription device, Calibration calibration) : device_(std::move(device)) {
        use(std::move(calibration));
    }

    void use(Calibration calibration) {
        calibration_ = std::move(calibration);
        path_.emplace(device_, calibration_, live_units_of(device_));
        converter_.emplace(calibration_);
        zeros_ = 0;
    }

    void take_frame(const FrameView& frame) override {
        const LoadSample sample = path_->take(frame);
        newest_us_ = frame.stamp.device_time_us;
        if (check_) check_->take(frame);
        if (guide_) guide_->take(frame);
        ++frames_;
        ++rate_frames_;
        count(sample);
        if (device_.layout.kind == FrameKind::cells) count_cells(frame);
        const double block_s = static_cast<double>(newest_us_ - block_us_) * seconds_per_us;
        if (block_frames_ == 1) block_us_ = newest_us_;
        if (block_frames_ > 1 && block_s >= mean_over_s) close_block();
        tell_rate();
    }
    void take_gap(const Gap&) override {}

    void begin_check(const CheckPlates& order) {
        guide_.reset();
        CheckOptions options;
        options.weight_kg = order.weight_kg;
        const Weighing weighing = weighing_at(std::nullopt, std::nullopt, std::nullopt, 0.0);
        options.gravity_m_s2 = weighing.gravity_m_s2;
        options.gravity_relative_u = weighing.gravity_relative_u;
        check_.emplace(device_, calibration_, options);
    }

    /// With a log of its readings beside the record to come, where readings are taken one by one.
    [[nodiscard]] Outcome begin_calibration(const CalibratePlates& order, const PlatesPlan& plan,
                                            const std::string& today) {
        if (!device_.newtons_per_count) {
            return Problem{ProblemKind::bad_input, device_.name,
                           "does not say what a count is worth, so a mass cannot be told from a draught",
                           "put a rough newtons_per_count into a description and begin with --layout"};
        }
        CalibrationPlanOptions options;
        options.masses_kg = order.masses_kg;
        options.method = device_.layout.kind == FrameKind::grid ? CalibrationMethod::mat : order.method;
        auto steps = plan_calibration(device_, options);
        if (!steps) return steps.problem();
        auto file = plan.shelf.new_file(device_.serial, today);
        if (!file) return file.problem();
        file_ = std::move(file).value();
        method_ = options.method;
        weighing_ = weighing_at(std::nullopt, std::nullopt, std::nullopt, plan.mass_tolerance_percent);
        log_.reset();
        logged_ = 0;
        if (method_ != CalibrationMethod::mat) {
            log_ = std::make_unique<LineLog>();
            if (Outcome made = log_->create(file_.string() + ".readings.csv"); !made) return made;
            if (Outcome written = log_->append(readings_header(device_)); !written) return written;
        }
        check_.reset();
        guide_.emplace(device_, std::move(steps).value(), weighing_.gravity_m_s2, steadiness_for(method_));
        return Done{};
    }

    void only_listen() {
        check_.reset();
        guide_.reset();
        log_.reset();
    }
    void accept() {
        if (check_) check_->accept();
        if (guide_) guide_->accept();
    }

    /// Readings that were taken since the last call go to the disk.
    [[nodiscard]] Outcome log_readings() {
        if (!guide_ || !log_) return Done{};
        for (; logged_ < guide_->readings().size(); ++logged_) {
            if (Outcome written = log_->append(readings_line(guide_->readings()[logged_], device_)); !written)
                return written;
        }
        return Done{};
    }

    [[nodiscard]] bool check_is_over() const { return check_ && check_->finished(); }
    [[nodiscard]] CheckResult end_check() {
        CheckResult result = check_->result();
        check_.reset();
        return result;
    }

    [[nodiscard]] bool calibration_is_over() const { return guide_ && guide_->finished(); }
    [[nodiscard]] Result<KeptCalibration> end_calibration(const std::string& today, int valid_months) {
        const auto made = method_ == CalibrationMethod::mat
                              ? make_mat_calibration(device_, guide_->readings(),
                                                     guide_->findings().value_or(MatFindings{}), weighing_,
                                                     today, valid_months)
                              : make_calibration(device_, guide_->readings(), weighing_, today, valid_months);
        guide_.reset();
        if (!made) return made.problem();
        const Calibration& record = made.value().record;
        if (Outcome kept = write_new_file(file_, calibration_json(record)); !kept) return kept.problem();
        if (log_) log_->remove();  // the record holds the readings
        log_.reset();
        use(record);
        return KeptCalibration{file_.string(), share_certainty(record, example_share), made.value().remarks};
    }

    void tell(PlatesView& view, const std::string& today) const {
        view.frames = frames_;
        view.heard_rate_hz = rate_hz_;
        view.total_n = total_n_;
        view.left_n = left_n_;
        view.right_n = right_n_;
        view.noise_n = noise_n_;
        view.cell_n = cell_n_;
        view.calibration = describe_calibration(calibration_, today);
        view.calibration_state = calibration_state(calibration_, today);
        view.zero_age_s.reset();
        view.zero_advice = ZeroAdvice::fine;
        view.zero_refusal = ZeroRefusal::none;
        if (const auto& keeper = path_->zero_keeper()) {
            view.zero_advice = keeper->advice(newest_us_, 0.0);
            view.zero_refusal = keeper->refusal();
        }
        if (!path_->zeros().empty()) {
            const std::uint64_t zero_us = path_->zeros().back().device_time_us;
            view.zero_age_s =
                newest_us_ > zero_us ? static_cast<double>(newest_us_ - zero_us) * seconds_per_us : 0.0;
        }
        view.task = guide_ ? PlatesTask::calibrating : check_ ? PlatesTask::checking : PlatesTask::listening;
        view.step = guide_ ? guide_->step() : check_ ? static_cast<std::size_t>(check_->step()) : 0;
        view.steps = guide_ ? guide_->step_count() : check_ ? check_steps(device_) : 0;
        if (check_ && check_->step() == CheckStep::elsewhere) view.step = steps_of_one - 1;
        view.instruction = guide_ ? guide_->instruction() : check_ ? check_->instruction() : "";
        view.remark = guide_ ? guide_->remark() : check_ ? check_->remark() : "";
    }

  private:
    void count(const LoadSample& sample) {
        ++block_frames_;
        sum_n_ += sample.total_n;
        squares_n2_ += sample.total_n * sample.total_n;
        if (!known(sample.left_n) || !known(sample.right_n)) return;
        ++feet_frames_;
        left_sum_n_ += sample.left_n;
        right_sum_n_ += sample.right_n;
    }

    void count_cells(const FrameView& frame) {
        if (path_->zeros().size() != zeros_) {
            zeros_ = path_->zeros().size();
            converter_->set_zero(path_->zeros().back().zero_counts);
        }
        const std::span<const double> cells = converter_->convert(frame.values);
        cell_sums_n_.resize(cells.size(), 0.0);
        for (std::size_t i = 0; i < cells.size(); ++i) cell_sums_n_[i] += cells[i];
    }

    void close_block() {
        const auto frames = static_cast<double>(block_frames_);
        total_n_ = sum_n_ / frames;
        noise_n_ = std::sqrt(std::max(0.0, squares_n2_ / frames - total_n_ * total_n_));
        left_n_.reset();
        right_n_.reset();
        if (feet_frames_ > 0) {
            left_n_ = left_sum_n_ / static_cast<double>(feet_frames_);
            right_n_ = right_sum_n_ / static_cast<double>(feet_frames_);
        }
        cell_n_ = cell_sums_n_;
        for (double& cell : cell_n_) cell /= frames;
        std::ranges::fill(cell_sums_n_, 0.0);
        sum_n_ = squares_n2_ = left_sum_n_ = right_sum_n_ = 0.0;
        block_frames_ = feet_frames_ = 0;
    }

    /// Frames a second by the device's own clock.
    void tell_rate() {
        if (rate_frames_ == 1) rate_us_ = newest_us_;
        const double span_s = static_cast<double>(newest_us_ - rate_us_) * seconds_per_us;
        if (span_s < rate_over_s) return;
        rate_hz_ = static_cast<double>(rate_frames_ - 1) / span_s;
        rate_frames_ = 0;
    }

    DeviceDescription device_;
    Calibration calibration_;
    std::optional<LoadPath> path_;
    std::optional<ForceConverter> converter_;
    std::size_t zeros_ = 0;
    std::optional<QuickCheck> check_;
    std::optional<CalibrationGuide> guide_;
    CalibrationMethod method_ = CalibrationMethod::cells;
    Weighing weighing_;
    std::filesystem::path file_;
    std::unique_ptr<LineLog> log_;
    std::size_t logged_ = 0;

    std::uint64_t newest_us_ = 0;
    std::uint64_t frames_ = 0;
    std::uint64_t rate_us_ = 0;
    std::uint64_t rate_frames_ = 0;
    double rate_hz_ = 0.0;
    std::uint64_t block_us_ = 0;
    std::uint64_t block_frames_ = 0;
    std::uint64_t feet_frames_ = 0;
    double sum_n_ = 0.0;
    double squares_n2_ = 0.0;
    double left_sum_n_ = 0.0;
    double right_sum_n_ = 0.0;
    std::vector<double> cell_sums_n_;
    double total_n_ = 0.0;
    double noise_n_ = 0.0;
    std::optional<double> left_n_;
    std::optional<double> right_n_;
    std::vector<double> cell_n_;
};

PlatesRun::PlatesRun(PlatesPlan plan, const Clock& clock, std::function<void()> changed)
    : plan_(std::move(plan)),
      clock_(clock),
      changed_(std::move(changed)),
      view_(std::make_shared<const PlatesView>()) {
    thread_ = std::thread([this] {
        run();
        now_.stage = PlatesView::Stage::over;
        over_.store(true, std::memory_order_release);
        publish();
    });
}

PlatesRun::~PlatesRun() {
    ask_to_stop();
    thread_.join();
}

std::shared_ptr<const PlatesView> PlatesRun::view() const {
    const std::scoped_lock lock(mutex_);
    return view_;
}

void PlatesRun::order(PlatesOrder order) {
    const std::scoped_lock lock(mutex_);
    orders_.push_back(std::move(order));
}

std::vector<PlatesOrder> PlatesRun::take_orders() {
    const std::scoped_lock lock(mutex_);
    return std::exchange(orders_, {});
}

void PlatesRun::publish() {
    auto view = std::make_shared<const PlatesView>(now_);
    {
        const std::scoped_lock lock(mutex_);
        view_ = std::move(view);
    }
    if (changed_) changed_();
}

void PlatesRun::run() {
    const std::int64_t began_ns = clock_.steady_ns();
    auto made = plan_.make_source();
    if (!made) {
        now_.problem = made.problem();
        return;
    }
    now_.source = made.value()->name();
    publish();
    const auto given_up = [&] { return stop_asked_.load(); };
    PatientSource source(std::move(made).value(), given_up, [&](const Problem& problem) {
        now_.waited_s = static_cast<double>(clock_.steady_ns() - began_ns) * seconds_per_ns;
        now_.hint = problem.kind == ProblemKind::bad_input ? sentence(problem) : problem.remedy;
        publish();
    });
    auto opened = source.open(for_as_long_as_it_takes);
    if (!opened) {
        if (!stop_asked_) now_.problem = opened.problem();
        return;
    }
    now_.stage = PlatesView::Stage::heard;
    now_.device = opened.value();
    const std::string json = plan_.calibration ? plan_.calibration(now_.device) : "";
    Listener listener(now_.device, calibration_in(json, now_.device));
    listen(source, listener);
}

void PlatesRun::listen(FrameSource& source, Listener& listener) {
    std::int64_t published_ns = 0;
    std::int64_t newest_ns = clock_.steady_ns();
    std::uint64_t frames = 0;
    while (!stop_asked_) {
        const std::string today = iso_date(clock_.utc_ns());
        const auto note = [&](Outcome outcome) {
            if (outcome) return;
            now_.problem = outcome.problem();
            listener.only_listen();
        };
        for (PlatesOrder& order : take_orders()) {
            if (std::holds_alternative<AcceptReading>(order)) {
                listener.accept();
                continue;
            }
            now_.problem.reset();
            now_.checked.reset();
            now_.kept.reset();
            listener.only_listen();
            if (const auto* check = std::get_if<CheckPlates>(&order)) listener.begin_check(*check);
            if (const auto* calibrate = std::get_if<CalibratePlates>(&order))
                note(listener.begin_calibration(*calibrate, plan_, today));
        }
        const auto state = source.poll(listener, look_period);
        if (!state) {
            now_.problem = state.problem();
            return;
        }
        note(listener.log_readings());
        if (listener.check_is_over()) now_.checked = listener.end_check();
        if (listener.calibration_is_over()) {
            auto kept = listener.end_calibration(today, plan_.valid_months);
            if (kept) {
                now_.kept = std::move(kept).value();
            } else {
                now_.problem = kept.problem();
            }
        }
        const std::int64_t now_ns = clock_.steady_ns();
        listener.tell(now_, today);
        if (now_.frames != frames) newest_ns = now_ns;
        frames = now_.frames;
        now_.newest_age_s = static_cast<double>(now_ns - newest_ns) * seconds_per_ns;
        now_.losses = source.losses();
        if (now_ns - published_ns < publish_ns) continue;
        published_ns = now_ns;
        publish();
    }
}

}  // namespace footing
