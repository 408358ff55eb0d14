#include "viewer/lesson/plates_run.h"

#include <doctest/doctest.h>

#include <chrono>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "acquisition/calibrate/calibration.h"
#include "tests/calibration/simulated_plates.h"
#include "tests/support/child_process.h"
#include "tests/support/wait_until.h"
#include "viewer/calibration/calibration_plan.h"

using namespace footing;
using namespace footing::test;
using namespace std::chrono_literals;

namespace {

constexpr double standard_g_m_s2 = 9.80665;

/// Plates with whatever the test puts on them, many times faster than real time.
struct Bench {
    std::mutex mutex;
    SimulatedPlates plates{5};
};

class BenchSource final : public FrameSource {
  public:
    explicit BenchSource(std::shared_ptr<Bench> bench) : bench_(std::move(bench)) {}
    Result<DeviceDescription> open(std::chrono::milliseconds) override {
        return bench_->plates.description();
    }
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds) override {
        std::this_thread::sleep_for(1ms);
        const std::scoped_lock lock(bench_->mutex);
        for (int i = 0; i < 20; ++i) sink.take_frame(bench_->plates.next());
        return SourceState::running;
    }
    [[nodiscard]] LossCounters losses() const override { return {}; }
    [[nodiscard]] std::string name() const override { return "a test's plates"; }

  private:
    std::shared_ptr<Bench> bench_;
};

PlatesPlan plan_for(const std::shared_ptr<Bench>& bench, const CalibrationShelf& shelf) {
    PlatesPlan plan{{}, {}, shelf};
    plan.make_source = [bench] {
        return Result<std::unique_ptr<FrameSource>>(std::make_unique<BenchSource>(bench));
    };
    plan.calibration = [shelf](const DeviceDescription& device) { return shelf.newest(device); };
    return plan;
}

void load(Bench& bench, double left_n, double right_n) {
    const std::scoped_lock lock(bench.mutex);
    bench.plates.clear();
    bench.plates.put(0, left_n, {0.01, 0.02});
    bench.plates.put(1, right_n, {0.01, 0.02});
}

}  // namespace

TEST_CASE("plates that are listened to: empty they zero themselves, then loads stand there, feet and cells") {
    const ScratchFolder scratch;
    const CalibrationShelf shelf{std::filesystem::path(scratch.path())};
    const auto bench = std::make_shared<Bench>();
    const SystemClock clock;
    PlatesRun run(plan_for(bench, shelf), clock, nullptr);
    REQUIRE(becomes([&] { return run.view()->zero_age_s.has_value(); }));
    load(*bench, 300.0, 100.0);
    // The cells' own gains are off by 1 % or so, which a nominal scale does not know.
    CHECK(becomes([&] {
        const auto view = run.view();
        return view->left_n && std::abs(*view->left_n - 300.0) < 12.0 &&
               std::abs(view->total_n - 400.0) < 16.0;
    }));
    const auto view = run.view();
    CHECK(view->stage == PlatesView::Stage::heard);
    CHECK(view->cell_n.size() == 8);
    CHECK(becomes([&] { return std::abs(run.view()->heard_rate_hz - 100.0) < 1.0; }));
    CHECK(run.view()->calibration_state == CalibrationState::nominal);
    run.ask_to_stop();
    CHECK(becomes([&] { return run.is_over(); }));
}

TEST_CASE("a calibration is led through, kept on the shelf, in force at once, and then the check agrees") {
    const ScratchFolder scratch;
    const CalibrationShelf shelf{std::filesystem::path(scratch.path()) / "calibrations"};
    const auto bench = std::make_shared<Bench>();
    const DeviceDescription device = bench->plates.description();
    CalibrationPlanOptions options;
    options.masses_kg = {10.0, 20.0};
    const auto steps = plan_calibration(device, options);
    REQUIRE(steps.ok());
    const SystemClock clock;
    PlatesRun run(plan_for(bench, shelf), clock, nullptr);
    run.order(CalibratePlates{options.masses_kg, options.method});
    std::optional<std::size_t> seen;
    REQUIRE(becomes([&] {
        const auto view = run.view();
        if (view->task == PlatesTask::calibrating && seen != view->step) {
            seen = view->step;
            const CalibrationStep& step = steps.value()[view->step];
            const std::scoped_lock lock(bench->mutex);
            bench->plates.clear();
            if (step.kind == CalibrationStep::Kind::load)
                bench->plates.put_on_cell(step.plate, *step.cell, step.mass_kg * standard_g_m_s2);
        }
        return view->kept.has_value() || view->problem.has_value();
    }));
    const auto view = run.view();
    REQUIRE_MESSAGE(view->kept, (view->problem ? sentence(*view->problem) : ""));
    CHECK(std::filesystem::exists(view->kept->file));
    CHECK_FALSE(std::filesystem::exists(view->kept->file + ".readings.csv"));  // they are in the record
    CHECK(view->calibration_state == CalibrationState::valid);
    const auto record = parse_calibration(shelf.newest(device), "shelf");
    REQUIRE(record.ok());
    for (std::size_t cell = 0; cell < 8; ++cell) {
        CHECK(record.value().newtons_per_count[cell] ==
              doctest::Approx(bench->plates.gains[cell]).epsilon(0.003));
    }

    // Now the quick check with 80 kg, the same everywhere: what a sound pair of plates shows.
    load(*bench, 0.0, 0.0);
    run.order(CheckPlates{80.0});
    const double weight_n = 80.0 * standard_g_m_s2;
    CHECK(becomes([&] {
        const auto now = run.view();
        if (now->task == PlatesTask::checking) {
            const std::string& words = now->instruction;
            const bool left = words.find("left") != std::string::npos;
            const bool right = words.find("right") != std::string::npos;
            if (now->step == 0) {
                load(*bench, 0.0, 0.0);
            } else if (left && !right) {
                load(*bench, weight_n, 0.0);
            } else if (right && !left) {
                load(*bench, 0.0, weight_n);
            } else if (now->remark.find("off") != std::string::npos) {
                load(*bench, 0.0, 0.0);
            } else {
                load(*bench, weight_n / 2.0, weight_n / 2.0);
            }
        }
        return now->checked.has_value();
    }));
    REQUIRE(run.view()->checked);
    CHECK(run.view()->checked->overall() == Agreement::agrees);
}

TEST_CASE("a calibration that is given up leaves its readings on the disk, and one without masses says why") {
    const ScratchFolder scratch;
    const CalibrationShelf shelf{std::filesystem::path(scratch.path())};
    const auto bench = std::make_shared<Bench>();
    const SystemClock clock;
    PlatesRun run(plan_for(bench, shelf), clock, nullptr);
    run.order(CalibratePlates{{}, CalibrationMethod::cells});
    CHECK(becomes([&] { return run.view()->problem.has_value(); }));
    CHECK(run.view()->task == PlatesTask::listening);
    run.order(CalibratePlates{{10.0}, CalibrationMethod::cells});
    CHECK(becomes([&] { return run.view()->step >= 1; }));  // the empty plates were read
    run.order(OnlyListen{});
    CHECK(becomes([&] { return run.view()->task == PlatesTask::listening; }));
    bool readings = false;
    for (const auto& entry : std::filesystem::directory_iterator(scratch.path())) {
        const std::string name = entry.path().filename().string();
        readings = readings || (name.find(".readings.csv") != std::string::npos && entry.file_size() > 100);
    }
    CHECK(readings);
}
