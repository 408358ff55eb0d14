#include "viewer/lesson/lesson_run.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <memory>
#include <thread>

#include "acquisition/device/emulated_source.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/swing_label.h"

using namespace footing;
using namespace footing::test;
using namespace std::chrono_literals;

namespace {

constexpr auto patience = 60s;  // for a slow computer; nothing here is timed to pass or fail

/// Frames arrive now, whatever the simulated host said.
class ArrivingNow final : public FrameSink {
  public:
    explicit ArrivingNow(FrameSink& sink) : sink_(sink), now_ns_(SystemClock().steady_ns()) {}
    void take_frame(const FrameView& frame) override {
        FrameView stamped = frame;
        stamped.stamp.host_time_ns = now_ns_;
        sink_.take_frame(stamped);
    }
    void take_gap(const Gap& gap) override { sink_.take_gap(gap); }

  private:
    FrameSink& sink_;
    std::int64_t now_ns_;
};

/// The simulated golfer, a few times faster than real time, who stays silent at first.
class SlowGolfer final : public FrameSource {
  public:
    explicit SlowGolfer(const EmulatedDeviceSettings& settings) : golfer_(settings) {}
    Result<DeviceDescription> open(std::chrono::milliseconds wait) override {
        if (++turns_ < 3) {
            std::this_thread::sleep_for(wait);
            return Problem{ProblemKind::device_failed, "test", "nothing was heard", "switch it on"};
        }
        return golfer_.open(wait);
    }
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds wait) override {
        std::this_thread::sleep_for(20ms);
        ArrivingNow arriving(sink);
        const auto state = golfer_.poll(arriving, wait);
        if (state && state.value() == SourceState::finished) return SourceState::waiting;
        return state;
    }
    [[nodiscard]] LossCounters losses() const override { return golfer_.losses(); }
    [[nodiscard]] std::string name() const override { return "a test's golfer"; }

  private:
    EmulatedSource golfer_;
    int turns_ = 0;
};

template <typename Holds>
bool becomes(Holds holds) {
    const auto until = std::chrono::steady_clock::now() + patience;
    while (std::chrono::steady_clock::now() < until) {
        if (holds()) return true;
        std::this_thread::sleep_for(5ms);
    }
    return false;
}

/// A lesson's only source.
Result<std::vector<std::unique_ptr<FrameSource>>> alone(std::unique_ptr<FrameSource> source) {
    std::vector<std::unique_ptr<FrameSource>> sources;
    sources.push_back(std::move(source));
    return sources;
}

LessonPlan plan_for(const std::string& out) {
    LessonPlan plan;
    plan.out = out;
    plan.make_sources = [] {
        EmulatedDeviceSettings settings;
        settings.rate_hz = 200.0;
        settings.swings = 2;
        return alone(std::make_unique<SlowGolfer>(settings));
    };
    return plan;
}

}  // namespace

TEST_CASE("a lesson runs by itself: plates, set-up, swings with their loads, and a closed recording") {
    const ScratchFolder scratch;
    const std::string file = scratch / "lesson.h5";
    const SystemClock clock;
    bool saw_hint = false;
    bool saw_set_up = false;
    double worst_difference = 0.0;
    std::shared_ptr<const LessonResult> lesson;
    {
        LessonRun run(plan_for(file), clock, nullptr);
        REQUIRE(becomes([&] {
            const auto view = run.view();
            saw_hint = saw_hint || view->hint == "switch it on";
            saw_set_up = saw_set_up || view->set_up.settled.has_value();
            worst_difference = std::max(worst_difference, std::abs(view->weight_difference.value_or(0.0)));
            lesson = view->lesson;
            return lesson->swings.size() == 2;
        }));
        CHECK(saw_hint);
        CHECK(saw_set_up);
        CHECK(worst_difference < 0.01);  // one and the same golfer, however he sways
        const auto view = run.view();
        CHECK(view->weight_n.has_value());
        CHECK(view->zero_age_s.has_value());
        CHECK(view->progress.frames_on_disk > 0);
        run.note("said by the coach");
        run.ask_to_stop();
        REQUIRE(becomes([&] { return run.is_over(); }));
        CHECK(run.view()->stage == LessonStage::closed);
        CHECK(run.view()->closing_words.find(file) != std::string::npos);
        CHECK(run.view()->weight_difference.has_value());  // of who stood there, also after they left
    }
    const auto later = analyse_recording(file, {});
    REQUIRE(later.ok());
    REQUIRE(later.value().swings.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        // The live finder sees half a minute, the analysis all: the same swing, if not the same bits. A shot
        // that comes later teaches when a practice swing before it would have struck.
        const std::optional<Event>& impact = lesson->swings[i].events.impact;
        REQUIRE(impact.has_value());
        CHECK(std::abs(impact->time_s - later.value().swings[i].events.impact->time_s) <
              std::max(0.05, 2.0 * impact->u_s));
        // The same number with the same ± stands in the lesson and afterwards: both know the calibration.
        const auto& then = lesson->swings[i].lead_share.address;
        const auto& now = later.value().swings[i].lead_share.address;
        REQUIRE(then.has_value());
        REQUIRE(now.has_value());
        CHECK(then->value == doctest::Approx(now->value).epsilon(0.005));
        CHECK(then->u == doctest::Approx(now->u).epsilon(0.1));
        const auto& times = lesson->trace.time_s;
        CHECK(std::binary_search(times.begin(), times.end(), lesson->swings[i].from_s + 1.0,
                                 [](double a, double b) { return a < b - 0.01; }));
    }
    const auto reader = RecordingReader::open(file);
    REQUIRE(reader.ok());
    CHECK(reader.value().info().swings.size() == 2);
    CHECK(std::any_of(reader.value().info().notes.begin(), reader.value().info().notes.end(),
                      [](const RecordingNote& note) { return note.text == "said by the coach"; }));
}

TEST_CASE("looking for plates can be given up, and leaves nothing behind") {
    const ScratchFolder scratch;
    const SystemClock clock;
    LessonPlan plan = plan_for(scratch / "lesson.h5");
    class Nobody final : public FrameSource {
      public:
        Result<DeviceDescription> open(std::chrono::milliseconds wait) override {
            std::this_thread::sleep_for(wait);
            return Problem{ProblemKind::device_failed, "test", "nothing was heard", "switch it on"};
        }
        Result<SourceState> poll(FrameSink&, std::chrono::milliseconds) override {
            return SourceState::waiting;
        }
        [[nodiscard]] LossCounters losses() const override { return {}; }
        [[nodiscard]] std::string name() const override { return "nobody"; }
    };
    plan.make_sources = [] { return alone(std::make_unique<Nobody>()); };
    LessonRun run(std::move(plan), clock, nullptr);
    CHECK(becomes([&] { return !run.view()->hint.empty(); }));
    run.ask_to_stop();
    CHECK(becomes([&] { return run.is_over(); }));
    CHECK(run.view()->stage == LessonStage::closed);
    CHECK(run.view()->closing_words.empty());
    CHECK_FALSE(std::filesystem::exists(scratch / "lesson.h5.journal"));
}

TEST_CASE("a lesson that cannot begin says why at once") {
    const ScratchFolder scratch;
    write_file(scratch / "taken.h5", "somebody's");
    const SystemClock clock;
    LessonRun run(plan_for(scratch / "taken.h5"), clock, nullptr);
    REQUIRE(becomes([&] { return run.is_over(); }));
    CHECK(run.view()->stage == LessonStage::failed);
    CHECK(run.view()->problem->kind == ProblemKind::command_line);
    CHECK(read_file(scratch / "taken.h5") == "somebody's");
}

TEST_CASE("labels come back to their swings, whatever stands in them") {
    const ScratchFolder scratch;
    const std::string file = scratch / "lesson.h5";
    std::vector<Swing> swings(3);
    for (std::size_t i = 0; i < 3; ++i)
        swings[i].events.impact = Event{10.0 * static_cast<double>(i + 1), 0.01, {}};
    CHECK(read_labels(file, swings).value() == std::vector<SwingLabel>(3));
    std::vector<SwingLabel> labels(3);
    labels[0] = {CoachWord::practice, "=HYPERLINK(\"x\") \xFF", "half", std::nullopt};
    labels[2] = {CoachWord::shot, "54°", "full", 61.5};
    REQUIRE(write_labels(file, swings, labels).ok());
    swings[2].events.impact->time_s += 0.02;  // found a little later by the whole analysis
    const auto back = read_labels(file, swings);
    REQUIRE(back.ok());
    CHECK(back.value()[0].word == CoachWord::practice);
    CHECK(back.value()[1] == SwingLabel{});
    CHECK(back.value()[2] == labels[2]);
    write_file(labels_file(file),
               "{\"format\":\"footing labels\",\"version\":1,\"swings\":[{\"at_s\":\"soon\"}]}");
    REQUIRE_FALSE(read_labels(file, swings).ok());
    CHECK(read_labels(file, swings).problem().kind == ProblemKind::bad_input);
}
