// A lesson of many hours at 1 kHz through the real recorder, as fast as it goes: session, journal, live zero,
// share and swings, fold, reader. A simulated golfer's ten minutes come again and again with the counter
// going on; now and then a planted stretch of frames never comes. Prints memory as it goes; fails when a
// frame is missing that was not planted, or a gap is told that was not (P4, R1).
//
//     lesson_soak [--hours 8]
#include <fmt/format.h>

#include <atomic>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/calibrate/zero_words.h"
#include "acquisition/device/emulated_device.h"
#include "acquisition/record/recording_reader.h"
#include "tests/soak/memory.h"
#include "tests/support/child_process.h"
#include "viewer/lesson/live_lesson.h"
#include "viewer/lesson/recording_session.h"

namespace {

using namespace footing;

constexpr double rate_hz = 1000.0;
constexpr std::uint64_t microseconds_a_frame = 1000;
constexpr std::uint64_t frames_between_gaps = 150'011;
constexpr std::uint64_t most_ahead = 800;  ///< of the live side: its queue keeps a second, the newest wins

/// Which frames never come: one, seven or a thousand, every two and a half minutes.
std::uint64_t planted_length(std::uint64_t gap) {
    constexpr std::uint64_t lengths[] = {1, 7, 1000};
    return lengths[gap % 3];
}

struct TenMinutes {
    DeviceDescription device;
    std::vector<std::int32_t> counts;
    std::vector<std::uint16_t> inputs;
};

TenMinutes ten_minutes_of_lesson() {
    EmulatedDeviceSettings settings;
    settings.rate_hz = rate_hz;
    settings.swings = 36;
    EmulatedDevice golfer(settings);
    TenMinutes lesson{golfer.description(), {}, {}};
    while (const auto frame = golfer.next()) {
        const auto values = std::get<std::span<const std::int32_t>>(frame->values);
        lesson.counts.insert(lesson.counts.end(), values.begin(), values.end());
        lesson.inputs.push_back(frame->stamp.inputs);
    }
    return lesson;
}

/// Hands frames over as fast as the live side takes them.
class EndlessLesson final : public FrameSource {
  public:
    EndlessLesson(const TenMinutes& lesson, std::uint64_t frames, const std::atomic<std::uint64_t>& seen_live)
        : lesson_(lesson), frames_(frames), seen_live_(seen_live) {}

    Result<DeviceDescription> open(std::chrono::milliseconds) override { return lesson_.device; }

    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds) override {
        if (counter_ >= frames_) return SourceState::finished;
        if (losses_.frames >= seen_live_.load(std::memory_order_acquire) + most_ahead) {
            std::this_thread::yield();
            return SourceState::running;
        }
        for (int i = 0; i < 100 && counter_ < frames_; ++i) hand_over(sink);
        return SourceState::running;
    }
    [[nodiscard]] LossCounters losses() const override { return losses_; }
    [[nodiscard]] std::string name() const override { return "a lesson without end"; }

  private:
    void hand_over(FrameSink& sink) {
        if (counter_ > 0 && counter_ % frames_between_gaps == 0) {
            const std::uint64_t length = planted_length(counter_ / frames_between_gaps);
            const std::uint64_t before = counter_ - 1;
            counter_ += length;
            losses_.lost += length;
            sink.take_gap({before, length, time_us(before), time_us(counter_)});
        }
        const std::uint64_t index = counter_ % lesson_.inputs.size();
        const FrameStamp stamp{counter_, time_us(counter_),
                               static_cast<std::int64_t>(time_us(counter_)) * 1000, lesson_.inputs[index]};
        ++counter_;
        ++losses_.frames;
        sink.take_frame({stamp, std::span(lesson_.counts).subspan(index * 8, 8)});
    }
    static std::uint64_t time_us(std::uint64_t counter) { return 5'000'000 + counter * microseconds_a_frame; }

    const TenMinutes& lesson_;
    std::uint64_t frames_;
    const std::atomic<std::uint64_t>& seen_live_;
    std::uint64_t counter_ = 0;
    LossCounters losses_;
};

/// Counts what the live side has seen, and passes it on.
class CountedLesson final : public FrameSink {
  public:
    CountedLesson(LiveLesson& live, std::atomic<std::uint64_t>& seen) : live_(live), seen_(seen) {}
    void take_frame(const FrameView& frame) override {
        live_.take_frame(frame);
        seen_.fetch_add(1, std::memory_order_release);
    }
    void take_gap(const Gap& gap) override { live_.take_gap(gap); }

  private:
    LiveLesson& live_;
    std::atomic<std::uint64_t>& seen_;
};

int fail(const std::string& why) {
    fmt::print("FAILED: {}\n", why);
    return 1;
}

/// Whether the recording holds every frame but those planted, and nothing else.
int check(const std::string& file, std::uint64_t last_counter) {
    auto reader = RecordingReader::open(file);
    if (!reader.ok()) return fail(sentence(reader.problem()));
    std::uint64_t next = 0;
    std::uint64_t planted = 0;
    std::uint64_t missing = 0;
    std::uint64_t gaps = 0;
    for (std::uint64_t first = 0; first < reader.value().frame_count(); first += 262'144) {
        const auto block = reader.value().read(first, 262'144);
        if (!block.ok()) return fail(sentence(block.problem()));
        for (const FrameStamp& stamp : block.value().stamps) {
            if (next > 0 && next % frames_between_gaps == 0) {
                planted += planted_length(next / frames_between_gaps);
                next += planted_length(next / frames_between_gaps);
                ++gaps;
            }
            if (stamp.counter < next) return fail(fmt::format("frame {} came twice", stamp.counter));
            missing += stamp.counter - next;
            next = stamp.counter + 1;
        }
    }
    missing += last_counter - std::min(next, last_counter);
    const RecordingInfo& info = reader.value().info();
    fmt::print(
        "  recorded {} frames and {} gaps; planted {} missing frames in {} gaps; lost beside them {}\n",
        reader.value().frame_count(), info.gaps.size(), planted, gaps, missing);
    fmt::print("  swings marked live {}, notes {}, file {:.0f} MB\n", info.swings.size(), info.notes.size(),
               static_cast<double>(std::filesystem::file_size(file)) / 1e6);
    if (missing > 0) return fail("frames are missing that were not planted");
    if (info.gaps.size() != gaps) return fail("gaps are told that were not planted, or not told");
    if (info.losses.lost != planted || info.losses.queue_overflow != 0)
        return fail("losses are not as planted");
    return 0;
}

int run(double hours) {
    const test::ScratchFolder scratch;
    const SystemClock clock;
    const TenMinutes lesson = ten_minutes_of_lesson();
    const auto frames = static_cast<std::uint64_t>(hours * 3600.0 * rate_hz);
    std::atomic<std::uint64_t> seen_live{0};
    RecordingRequest request;
    request.out = scratch / "soak.h5";
    auto started =
        RecordingSession::start(std::make_unique<EndlessLesson>(lesson, frames, seen_live), request, clock);
    if (!started.ok()) return fail(sentence(started.problem()));
    RecordingSession& recording = *started.value();
    LiveLesson live(recording.device(), recording.calibration(), recording.hand());
    CountedLesson counted(live, seen_live);

    // Memory is compared from a quarter of an hour on, or a tenth of a short run: queues, pools and the first
    // lesson are then in place.
    const auto settled = std::min<std::uint64_t>(900'000, frames / 10);
    double mb_at_first = 0.0;
    double mb_most = 0.0;
    std::size_t marked = 0;
    std::size_t zeroed = 0;
    std::uint64_t look_at = settled;
    const auto begin = std::chrono::steady_clock::now();
    while (recording.progress().state != SessionState::finished ||
           seen_live < recording.progress().losses.frames) {
        if (recording.drain_live(counted) == 0) std::this_thread::sleep_for(std::chrono::microseconds(50));
        for (; marked < live.completed_swings(); ++marked)
            recording.mark_swing({live.swings()[marked].from_s, live.swings()[marked].to_s});
        for (; zeroed < live.zeros().size(); ++zeroed)
            recording.note(zero_note(live.zeros()[zeroed], recording.device().layout.kind));
        if (recording.progress().problem) return fail(sentence(*recording.progress().problem));
        if (seen_live < look_at) continue;
        const double mb = memory_mb("VmRSS:");
        if (mb_at_first == 0.0) mb_at_first = mb;
        mb_most = std::max(mb_most, mb);
        fmt::print("  {:5.2f} h  {:.1f} MB  {} swings\n", static_cast<double>(look_at) / rate_hz / 3600.0, mb,
                   live.swings().size());
        look_at += std::max<std::uint64_t>(frames / 16, 1);
    }
    mb_most = std::max(mb_most, memory_mb("VmRSS:"));
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    const auto fold_begin = std::chrono::steady_clock::now();
    const auto report = recording.stop(StopReason::asked);
    if (!report.ok()) return fail(sentence(report.problem()));
    const std::chrono::duration<double> fold = std::chrono::steady_clock::now() - fold_begin;
    fmt::print("  {:.2f} h recorded in {:.0f} s ({:.0f} frames a second), folded in {:.1f} s\n", hours,
               took.count(), static_cast<double>(frames) / took.count(), fold.count());
    fmt::print(
        "  memory grew by {:.1f} MB while recording (from {:.1f} MB); most ever, fold included, {:.1f} MB\n",
        mb_most - mb_at_first, mb_at_first, memory_mb("VmHWM:"));
    if (mb_most - mb_at_first > 20.0) return fail("memory grew by more than 20 MB");
    return check(scratch / "soak.h5", frames);
}

}  // namespace

int main(int count, char** words) {
    double hours = 8.0;
    for (int i = 1; i + 1 < count; i += 2) {
        if (std::string(words[i]) == "--hours") hours = std::strtod(words[i + 1], nullptr);
    }
    return run(hours);
}
