// P2 of the window's benchmark: a lesson under way, on simulated plates in real time.

#include <cmath>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

#include "acquisition/device/emulated_source.h"
#include "analysis/swing/set_up_watch.h"
#include "tests/bench/window_times.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/lesson_run.h"
#include "viewer/lesson/paced_source.h"
#include "viewer/panels/view_action.h"

namespace footing::bench {

namespace {

constexpr std::chrono::milliseconds step{5};  // of the simulated device: five frames come at once
constexpr double settled_s = 1.5;             // of a lesson, before its latency counts
constexpr double same_swing_s = 1.0;

/// When frames arrived: of each poll the time of its newest one, by the device's clock and by ours. Written
/// by the device's thread, read when that has ended.
struct Arrivals {
    struct One {
        std::uint64_t device_us;
        Steady::time_point when;
    };
    std::uint64_t first_us = 0;
    std::vector<One> polls;

    [[nodiscard]] std::optional<Steady::time_point> of(std::uint64_t device_us) const {
        const auto poll = std::ranges::lower_bound(polls, device_us, {}, &One::device_us);
        return poll == polls.end() ? std::nullopt : std::optional(poll->when);
    }
};

/// Notes when frames come out of a source.
class NotedSource final : public FrameSource {
  public:
    NotedSource(std::unique_ptr<FrameSource> source, Arrivals& arrivals)
        : source_(std::move(source)), arrivals_(arrivals) {
        arrivals_.polls.reserve(1 << 20);
    }
    Result<DeviceDescription> open(std::chrono::milliseconds patience) override {
        return source_->open(patience);
    }
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) override {
        Newest newest(sink);
        auto state = source_->poll(newest, patience);
        if (newest.device_us) {
            if (arrivals_.polls.empty()) arrivals_.first_us = newest.first_us;
            arrivals_.polls.push_back({*newest.device_us, newest.when});
        }
        return state;
    }
    [[nodiscard]] LossCounters losses() const override { return source_->losses(); }
    [[nodiscard]] std::string name() const override { return source_->name(); }

  private:
    struct Newest final : FrameSink {
        explicit Newest(FrameSink& to) : sink(to) {}
        void take_frame(const FrameView& frame) override {
            if (!device_us) {
                first_us = frame.stamp.device_time_us;
                when = Steady::now();
            }
            device_us = frame.stamp.device_time_us;
            sink.take_frame(frame);
        }
        void take_gap(const Gap& gap) override { sink.take_gap(gap); }
        FrameSink& sink;
        std::uint64_t first_us = 0;
        std::optional<std::uint64_t> device_us;
        Steady::time_point when;
    };
    std::unique_ptr<FrameSource> source_;
    Arrivals& arrivals_;
};

/// Wakes the one that draws.
class Bell {
  public:
    void ring() {
        {
            const std::scoped_lock lock(mutex_);
            rung_ = true;
        }
        wakes_.notify_one();
    }
    void wait() {
        std::unique_lock lock(mutex_);
        wakes_.wait_for(lock, std::chrono::milliseconds(100), [this] { return rung_; });
        rung_ = false;
    }

  private:
    std::mutex mutex_;
    std::condition_variable wakes_;
    bool rung_ = false;
};

/// A picture that was shown.
struct Shown {
    std::uint64_t knows_us;  ///< the newest frame that it knows of
    Steady::time_point when;
    Stance stance;
};
struct ReplayShown {
    double impact_s;
    Steady::time_point when;
};
struct Lesson {
    Arrivals arrivals;
    std::vector<Shown> pictures;
    std::vector<ReplayShown> replays;
};

/// Draws what the lesson has to show for so long, as the window does.
void show(LessonRun& run, Bell& bell, OffScreen& screen, double seconds, Lesson& lesson) {
    ViewState state;
    state.desk.emplace();
    state.desk->live = run.view();
    std::shared_ptr<const LiveView> shown;
    std::size_t replays = 0;
    const auto start = Steady::now();
    while (seconds_since(start) < seconds) {
        bell.wait();
        std::shared_ptr<const LiveView> live = run.view();
        if (live == shown) continue;
        shown = live;
        state = carry_out(std::move(state), LessonAction{HearLesson{live}});
        screen.draw(state);
        const auto now = Steady::now();
        if (live->newest_time_us > 0)
            lesson.pictures.push_back({live->newest_time_us, now, live->set_up.stance});
        if (live->lesson->swings.size() <= replays) continue;
        replays = live->lesson->swings.size();
        if (const auto& impact = live->lesson->swings.back().events.impact)
            lesson.replays.push_back({impact->time_s, now});
    }
}

Lesson hold_lesson(OffScreen& screen, const std::filesystem::path& out, double seconds) {
    static const SystemClock clock;
    Lesson lesson;
    Bell bell;
    LessonPlan plan;
    plan.out = out;
    plan.student = "Robin Sample";
    plan.make_sources = [&lesson] {
        EmulatedDeviceSettings settings;
        settings.swings = 1000;
        std::vector<std::unique_ptr<FrameSource>> sources;
        auto paced = std::make_unique<PacedSource>(
            std::make_unique<EmulatedSource>(settings, std::chrono::duration<double>(step).count()), step,
            clock);
        sources.push_back(std::make_unique<NotedSource>(std::move(paced), lesson.arrivals));
        return Result<std::vector<std::unique_ptr<FrameSource>>>(std::move(sources));
    };
    {
        LessonRun run(std::move(plan), clock, [&bell] { bell.ring(); });
        show(run, bell, screen, seconds, lesson);
    }
    return lesson;
}

/// The set-up shows means over blocks: a frame shows once its block is whole.
std::uint64_t shows_from_us(std::uint64_t frame_us, std::uint64_t first_us) {
    const auto block_us = static_cast<std::uint64_t>(SetUpOptions{}.block_s * 1e6);
    return first_us + ((frame_us - first_us) / block_us + 1) * block_us;
}

void print_arrivals(const Lesson& lesson) {
    std::vector<double> all_s;
    std::vector<double> stood_s;  // while somebody stood there
    std::size_t picture = 0;
    for (const Arrivals::One& poll : lesson.arrivals.polls) {
        const auto since_first_s = static_cast<double>(poll.device_us - lesson.arrivals.first_us) * 1e-6;
        if (since_first_s < settled_s) continue;
        const std::uint64_t wanted_us = shows_from_us(poll.device_us, lesson.arrivals.first_us);
        while (picture < lesson.pictures.size() && lesson.pictures[picture].knows_us < wanted_us) ++picture;
        if (picture == lesson.pictures.size()) break;
        const Shown& shown = lesson.pictures[picture];
        all_s.push_back(std::chrono::duration<double>(shown.when - poll.when).count());
        if (shown.stance != Stance::nobody) stood_s.push_back(all_s.back());
    }
    print_times("arrival of a frame to its picture, on the plates", stood_s);
    print_times("    and with empty plates too", all_s);
}

void print_replays(const Lesson& lesson, const std::string& recording) {
    const auto closed = analyse_recording(recording, {});
    if (!closed) give_up(closed.problem());
    std::vector<double> waited_s;
    for (const ReplayShown& seen : lesson.replays) {
        for (const Swing& swing : closed.value().swings) {
            if (!swing.events.finish || !swing.events.impact) continue;
            if (std::abs(swing.events.impact->time_s - seen.impact_s) > same_swing_s) continue;
            const auto finish_us =
                lesson.arrivals.first_us + static_cast<std::uint64_t>(1e6 * swing.events.finish->time_s);
            if (const auto arrived = lesson.arrivals.of(finish_us))
                waited_s.push_back(std::chrono::duration<double>(seen.when - *arrived).count());
        }
    }
    print_times("end of a swing to its replay", waited_s);
    if (waited_s.empty()) fmt::print("    none was caught: a swing and its set-up take 17 s\n");
}

}  // namespace

void bench_live(OffScreen& screen, const std::filesystem::path& folder, double seconds) {
    const std::filesystem::path recording = folder / "live.h5";
    const Lesson lesson = hold_lesson(screen, recording, seconds);
    fmt::print(
        "\nP2: a lesson under way in real time, 1 kHz x 8 cells, {:.0f} s (aims: p95 50 ms, and 500 ms)\n",
        seconds);
    print_arrivals(lesson);
    print_replays(lesson, recording.string());
}

}  // namespace footing::bench
