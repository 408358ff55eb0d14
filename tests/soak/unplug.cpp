// A board on a serial line (a pty under a path that stays) is unplugged and plugged in again at random
// instants while it is recorded at 1 kHz. Prints how soon the recorder found out and went on; fails on a
// hang, on a frame invented or lost while plugged in beyond what was in the cable, and when it is not one
// recording with one gap each (R7).
//
//     unplug_soak [--cycles 100]
#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/device/live_source.h"
#include "acquisition/device/serial_link.h"
#include "acquisition/record/recording_reader.h"
#include "tests/device/real_lines.h"
#include "tests/device/sent_packets.h"
#include "tests/record/samples.h"
#include "viewer/lesson/recording_session.h"

namespace {

using namespace footing;
using namespace std::chrono_literals;
using SteadyTime = std::chrono::steady_clock::time_point;

/// A board that goes on counting whether or not it is plugged in.
class Board {
  public:
    explicit Board(std::uint32_t serial) : serial_(serial), thread_([this] { run(); }) {}
    ~Board() { stop(); }
    Board(const Board&) = delete;
    Board& operator=(const Board&) = delete;

    /// While somebody still reads: a board whose cable is full waits.
    void stop() {
        over_ = true;
        if (thread_.joinable()) thread_.join();
    }
    void unplug() {
        const std::lock_guard lock(mutex_);
        plugged_in_ = false;
        cable_.unplug();
    }
    void plug_in() {
        const std::lock_guard lock(mutex_);
        cable_.plug_in();
        plugged_in_ = true;
    }
    [[nodiscard]] std::string path() const { return cable_.path(); }
    [[nodiscard]] std::uint32_t counter() const { return counter_; }
    void become(std::uint32_t serial) { serial_ = serial; }

  private:
    void run() {
        const auto begin = std::chrono::steady_clock::now();
        for (std::uint32_t i = 0; !over_; ++i) {
            std::this_thread::sleep_until(begin + std::chrono::milliseconds(i));
            const std::lock_guard lock(mutex_);
            counter_ = i;
            if (!plugged_in_) continue;
            if (i % 200 == 0) cable_.send(stream_form(described(eight_cells(serial_), i)));
            cable_.send(stream_form(cells(i, serial_)));
        }
    }

    Cable cable_{"footing_unplug_soak_"};
    std::mutex mutex_;
    bool plugged_in_ = true;
    std::atomic<std::uint32_t> serial_;
    std::atomic<std::uint32_t> counter_{0};
    std::atomic<bool> over_{false};
    std::thread thread_;  ///< last: it uses all of the above
};

int fail(const std::string& why) {
    fmt::print("FAILED: {}\n", why);
    return 1;
}

/// Seconds until it holds; a very long time when it never does.
template <typename Condition>
double seconds_until(Condition held) {
    const SteadyTime begin = std::chrono::steady_clock::now();
    while (true) {
        const std::chrono::duration<double> waited = std::chrono::steady_clock::now() - begin;
        if (held()) return waited.count();
        if (waited > 20s) return 1e9;
        std::this_thread::sleep_for(1ms);
    }
}

void print_times(const char* what, std::vector<double> seconds) {
    std::ranges::sort(seconds);
    fmt::print("  {}: median {:.3f} s, p95 {:.3f} s, longest {:.3f} s\n", what, seconds[seconds.size() / 2],
               seconds[seconds.size() * 95 / 100], seconds.back());
}

int run(int cycles) {
    const SystemClock clock;
    const samples::ScratchFolder scratch;
    samples::Chance chance(7);
    Board board(test_serial);
    RecordingRequest request;
    request.out = scratch / "a.h5";
    auto source = std::make_unique<LiveSource>(
        std::make_unique<SerialLink>(SerialPort{board.path(), 115'200}, clock), LiveSourceOptions{}, clock);
    auto started = RecordingSession::start(std::move(source), request, clock);
    if (!started.ok()) return fail(sentence(started.problem()));
    RecordingSession& recording = *started.value();
    const auto stop_and_fail = [&board](const std::string& why) {
        board.stop();
        return fail(why);
    };
    const auto is_found = [&] { return recording.progress().state == SessionState::waiting; };
    std::vector<double> found_s;
    std::vector<double> resumed_s;
    for (int cycle = 0; cycle < cycles; ++cycle) {
        std::this_thread::sleep_for(std::chrono::milliseconds(200 + chance.below(600)));
        board.unplug();
        found_s.push_back(seconds_until(is_found));
        std::this_thread::sleep_for(std::chrono::milliseconds(chance.below(800)));
        const std::uint64_t before = recording.progress().losses.frames;
        board.plug_in();
        resumed_s.push_back(seconds_until([&] { return recording.progress().losses.frames > before; }));
        if (found_s.back() > 20.0 || resumed_s.back() > 20.0)
            return stop_and_fail(fmt::format("hung in cycle {}", cycle + 1));
    }
    // Another device on the same cable: its frames are not ours, and neither is its calibration (R7).
    board.unplug();
    seconds_until(is_found);
    board.become(test_serial + 1);
    board.plug_in();
    const std::uint64_t before = recording.progress().losses.frames;
    seconds_until([&] { return recording.progress().losses.foreign > 100; });
    const std::uint64_t of_another = recording.progress().losses.frames - before;
    board.unplug();
    board.become(test_serial);
    board.plug_in();
    seconds_until([&] { return recording.progress().losses.frames > before; });

    board.stop();
    const auto report = recording.stop(StopReason::asked);
    if (!report.ok()) return fail(sentence(report.problem()));
    auto reader = RecordingReader::open(request.out);
    if (!reader.ok()) return fail(sentence(reader.problem()));
    const auto frames = reader.value().read(0, static_cast<std::size_t>(reader.value().frame_count()));
    if (!frames.ok()) return fail(sentence(frames.problem()));
    const auto& values = std::get<std::vector<std::int32_t>>(frames.value().values);
    std::uint64_t untrue = 0;
    for (std::size_t i = 0; i < frames.value().size(); ++i)
        untrue += values[8 * i] == static_cast<std::int32_t>(frames.value().stamps[i].counter) ? 0U : 1U;
    const RecordingInfo& info = reader.value().info();
    fmt::print(
        "  {} cycles, 0 hangs, one recording with {} frames and {} gaps; {} frames of another device taken\n",
        cycles, reader.value().frame_count(), info.gaps.size(), of_another);
    print_times("found out", found_s);
    print_times("went on after return", resumed_s);
    if (untrue > 0) return fail("frames were invented");
    if (of_another > 0) return fail("another device's frames were taken");
    if (info.gaps.size() != static_cast<std::size_t>(cycles) + 1)
        return fail("not one gap for each time unplugged");
    return 0;
}

}  // namespace

int main(int count, char** words) {
    int cycles = 100;
    for (int i = 1; i + 1 < count; i += 2) {
        if (std::string(words[i]) == "--cycles") cycles = std::atoi(words[i + 1]);
    }
    return run(std::max(cycles, 1));
}
