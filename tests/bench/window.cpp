// How fast the coach's window is, drawn without a display (the same panels, the same OpenGL) and, where Xvfb
// is there, as the program itself.
//   window_bench [--frames N] [--seconds S] [--minutes M] [--swings N]
// P1: time of one frame at 1440 x 900 with 20 swings of 8 cells at 1 kHz: a swing under a running head, all
// 20 laid
//     over each other, the book. P2: from the arrival of each frame to the first picture that knows of it,
//     and from the end of each swing (its finish, as the closed recording has it) to the picture of its
//     replay. P3: a lesson of M minutes from the file to its first picture, and the list of N swings
//     scrolled. U10: processor time of the program left alone.

#include <fmt/format.h>
#include <signal.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <utility>
#include <vector>

#include "acquisition/device/emulated_source.h"
#include "acquisition/record/recording_writer.h"
#include "tests/support/window_screens.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/lesson_run.h"
#include "viewer/lesson/paced_source.h"
#include "viewer/window/off_screen.h"

extern char** environ;

using namespace footing;

namespace {

using Steady = std::chrono::steady_clock;

constexpr PixelSize screen_size{1440, 900};
constexpr double frame_s = 1.0 / 60.0;
constexpr double settled_s = 1.5;  // of a live lesson, before its latency counts

double seconds_since(Steady::time_point start) {
    return std::chrono::duration<double>(Steady::now() - start).count();
}

[[noreturn]] void give_up(const Problem& problem) {
    fmt::print(stderr, "window_bench: {}\n", sentence(problem));
    std::exit(1);
}

double part_of(std::vector<double> values, double part) {
    if (values.empty()) return 0.0;
    std::ranges::sort(values);
    return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1) + 0.5)];
}

void print_times(const std::string& what, const std::vector<double>& seconds) {
    fmt::print("{:<44} {:6} | p50 {:6.1f}  p95 {:6.1f}  p99 {:6.1f}  most {:6.1f} ms\n", what, seconds.size(),
               1e3 * part_of(seconds, 0.5), 1e3 * part_of(seconds, 0.95), 1e3 * part_of(seconds, 0.99),
               1e3 * part_of(seconds, 1.0));
}

/// A simulated lesson at 1 kHz with 8 cells, with so many swings, or as long as is said.
void write_lesson(const std::filesystem::path& path, std::size_t swings, double minutes) {
    EmulatedDeviceSettings settings;
    settings.swings = swings;
    RecordingInfo info;
    info.zone = "UTC";
    info.origin = "simulated golfer";
    info.device = EmulatedDevice(settings).description();
    auto writer = RecordingWriter::create(path, info);
    if (!writer) give_up(writer.problem());
    const auto wanted = static_cast<std::uint64_t>(minutes * 60.0 * settings.rate_hz);
    std::uint64_t written = 0;
    do {
        EmulatedDevice device(settings);
        while (auto frame = device.next()) {
            FrameView later = *frame;
            later.stamp.counter = written;
            later.stamp.device_time_us = written * static_cast<std::uint64_t>(1e6 / settings.rate_hz);
            if (const auto done = writer.value().append(later); !done) give_up(done.problem());
            if (++written >= wanted && wanted > 0) break;
        }
        ++settings.seed;
    } while (written < wanted);
    info.losses.frames = written;
    if (const auto done = writer.value().close(info); !done) give_up(done.problem());
}

/// How long frames took, and how much processor time of all threads: on a busy machine only the latter says
/// something, and is no less than the former would be on an idle one.
struct FrameTimes {
    std::vector<double> took_s;
    std::vector<double> processor_s;
};

double processor_now_s() {
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

void print_times(const std::string& what, const FrameTimes& times) {
    print_times(what, times.took_s);
    print_times("    processor time of all threads", times.processor_s);
}

/// Draws so many frames, each of a state a little later.
FrameTimes time_frames(OffScreen& screen, ViewState state, int frames,
                       const std::function<ViewState(ViewState, int)>& next) {
    screen.draw(state);
    screen.draw(state);
    FrameTimes times;
    for (int frame = 0; frame < frames; ++frame) {
        const double used_s = processor_now_s();
        const auto start = Steady::now();
        state = next(std::move(state), frame);
        screen.draw(state);
        times.took_s.push_back(seconds_since(start));
        times.processor_s.push_back(processor_now_s() - used_s);
    }
    return times;
}

ViewState play_on(ViewState state, int) {
    return advance(std::move(state), frame_s);
}

void bench_frames(OffScreen& screen, const ViewState& open, int frames) {
    fmt::print("\nP1: one frame at {} x {}, {} swings of 8 cells at 1 kHz (aim: p99 16.7 ms)\n",
               screen_size.width, screen_size.height, open.lesson->swings.size());
    ViewState playing = carry_out(carry_out(open, ToggleLooping{}), TogglePlaying{});
    print_times("a swing, head running", time_frames(screen, playing, frames, play_on));
    ViewState two =
        carry_out(carry_out(playing, KeepForComparison{}), ChooseSwing{open.lesson->swings.size() - 1});
    print_times("two swings, head running", time_frames(screen, two, frames, play_on));
    print_times("the whole recording without a swing, head running",
                time_frames(screen, open, frames, [&](ViewState state, int frame) {
                    return carry_out(std::move(state), ScrubTo{open.lesson->duration_s * frame / frames});
                }));
    const ViewState laid = sample::all_compared(open);
    print_times("all swings laid over each other",
                time_frames(screen, laid, frames, [](ViewState state, int) {
                    return carry_out(std::move(state), CompareAction{MoveInList{1}});
                }));
    print_times("set-up, plumb line moving",
                time_frames(screen, sample::hear({}, sample::standing(1.0, Stance::moving, 0.6)), frames,
                            [](ViewState state, int frame) {
                                return sample::hear(std::move(state),
                                                    sample::standing(1.0 + frame * frame_s, Stance::moving,
                                                                     0.5 + 0.002 * (frame % 100)));
                            }));
    print_times(
        "distances of a student",
        time_frames(screen, sample::at_book(sample::book_facts(sample::Names::usual), BookPage::distances),
                    frames, [](ViewState state, int) { return state; }));
}

void bench_long_list(OffScreen& screen, std::size_t swings, int frames) {
    LessonResult lesson = sample::lesson();
    const std::vector<Swing> eight = lesson.swings;
    while (lesson.swings.size() < swings) {
        lesson.swings.push_back(eight[lesson.swings.size() % eight.size()]);
        lesson.swings.back().index = lesson.swings.size();
    }
    const ViewState open = show_lesson(std::make_shared<const LessonResult>(std::move(lesson)));
    print_times(fmt::format("a list of {} swings, scrolled", swings),
                time_frames(screen, open, frames, [&](ViewState state, int frame) {
                    return carry_out(std::move(state), ScrollList{static_cast<std::size_t>(frame) * swings /
                                                                  static_cast<std::size_t>(frames)});
                }));
}

void bench_opening(OffScreen& screen, const std::filesystem::path& file, double minutes) {
    std::vector<double> took_s;
    for (int again = 0; again < 3; ++again) {
        const auto start = Steady::now();
        auto lesson = analyse_recording(file.string(), {});
        if (!lesson) give_up(lesson.problem());
        screen.draw(show_lesson(std::make_shared<const LessonResult>(std::move(lesson).value())));
        took_s.push_back(seconds_since(start));
    }
    fmt::print("{:<44} {:6} | least {:.0f}, most {:.0f} ms (aim: 1000 ms)\n",
               fmt::format("a lesson of {:g} minutes, file to picture", minutes), took_s.size(),
               1e3 * part_of(took_s, 0.0), 1e3 * part_of(took_s, 1.0));
}

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

/// When a moment of the lesson became visible.
struct Seen {
    double lesson_s;
    double from_start_s;
};

void bench_live(OffScreen& screen, const std::filesystem::path& folder, double seconds) {
    static const SystemClock clock;
    Bell bell;
    LessonPlan plan;
    plan.out = folder / "live.h5";
    plan.student = "Robin Sample";
    std::optional<Steady::time_point> opened;
    static constexpr std::chrono::milliseconds step{5};
    plan.make_sources = [] {
        EmulatedDeviceSettings settings;
        settings.swings = 1000;
        std::vector<std::unique_ptr<FrameSource>> sources;
        sources.push_back(std::make_unique<PacedSource>(
            std::make_unique<EmulatedSource>(settings, std::chrono::duration<double>(step).count()), step,
            clock));
        return Result<std::vector<std::unique_ptr<FrameSource>>>(std::move(sources));
    };
    std::vector<Seen> frames_seen;
    std::vector<Seen> replays_seen;
    std::vector<double> finishes_s;
    {
        LessonRun run(std::move(plan), clock, [&bell] { bell.ring(); });
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
            const double lesson_s = live->progress.duration_s;
            if (lesson_s <= 0.0) continue;
            // Frame k of the paced source is due k steps after its opening; the largest head start seen is
            // that.
            const auto began =
                now - std::chrono::duration_cast<Steady::duration>(std::chrono::duration<double>(lesson_s));
            opened = opened ? std::min(*opened, began) : began;
            const double from_start_s = std::chrono::duration<double>(now - start).count();
            frames_seen.push_back({lesson_s, from_start_s});
            if (live->lesson->swings.size() > replays) {
                replays = live->lesson->swings.size();
                replays_seen.push_back({live->lesson->swings.back().events.impact->time_s, from_start_s});
            }
        }
        const double opened_s = opened ? std::chrono::duration<double>(*opened - start).count() : 0.0;
        for (auto* all : {&frames_seen, &replays_seen}) {
            for (Seen& one : *all) one.from_start_s -= opened_s;
        }
    }
    const auto closed = analyse_recording((folder / "live.h5").string(), {});
    if (!closed) give_up(closed.problem());

    // Each frame (each 5 ms of them) waits for the first picture that is newer.
    std::vector<double> waited_s;
    std::size_t picture = 0;
    const double last_s = frames_seen.empty() ? 0.0 : frames_seen.back().lesson_s;
    for (double arrived_s = settled_s; arrived_s < last_s; arrived_s += 0.005) {
        while (frames_seen[picture].lesson_s < arrived_s) ++picture;
        waited_s.push_back(frames_seen[picture].from_start_s - arrived_s);
    }
    fmt::print(
        "\nP2: a lesson under way in real time, 1 kHz x 8 cells, {:.0f} s (aims: p95 50 ms, and 500 ms)\n",
        seconds);
    print_times("arrival of a frame to its picture", waited_s);
    std::vector<double> replay_s;
    for (const Seen& seen : replays_seen) {
        for (const Swing& swing : closed.value().swings) {
            if (swing.events.finish && std::abs(swing.events.impact->time_s - seen.lesson_s) < 1.0)
                replay_s.push_back(seen.from_start_s - swing.events.finish->time_s);
        }
    }
    print_times("end of a swing to its replay", replay_s);
}

/// A child process of this one; ended by its own id.
class Child {
  public:
    Child(std::vector<std::string> words, const std::string& display, const std::filesystem::path& home) {
        std::vector<char*> arguments;
        for (std::string& word : words) arguments.push_back(word.data());
        arguments.push_back(nullptr);
        std::vector<std::string> own{"DISPLAY=" + display, "XDG_STATE_HOME=" + home.string()};
        std::vector<char*> variables{own[0].data(), own[1].data()};
        for (char** variable = environ; *variable != nullptr; ++variable) {
            const std::string_view name(*variable);
            if (!name.starts_with("DISPLAY=") && !name.starts_with("XDG_STATE_HOME="))
                variables.push_back(*variable);
        }
        variables.push_back(nullptr);
        if (posix_spawnp(&id_, arguments[0], nullptr, nullptr, arguments.data(), variables.data()) != 0)
            id_ = -1;
    }
    ~Child() {
        if (!running()) return;
        kill(id_, SIGTERM);
        waitpid(id_, nullptr, 0);
    }
    Child(const Child&) = delete;
    Child& operator=(const Child&) = delete;

    [[nodiscard]] bool running() {
        if (id_ > 0 && waitpid(id_, nullptr, WNOHANG) != 0) id_ = -1;
        return id_ > 0;
    }
    [[nodiscard]] double processor_s() const {
        std::ifstream stat("/proc/" + std::to_string(id_) + "/stat");
        std::string text{std::istreambuf_iterator<char>(stat), {}};
        text.erase(0, text.rfind(')') + 2);
        std::string word;
        double ticks = 0.0;
        std::size_t at = text.find_first_not_of(' ');
        for (int field = 3; at < text.size(); ++field) {
            const std::size_t end = std::min(text.find(' ', at), text.size());
            if (field == 14 || field == 15) ticks += std::atof(text.substr(at, end - at).c_str());
            at = end + 1;
        }
        return ticks / static_cast<double>(sysconf(_SC_CLK_TCK));
    }

  private:
    pid_t id_ = -1;
};

void bench_idle(const std::filesystem::path& file, const std::filesystem::path& folder, double seconds) {
    fmt::print("\nU10: processor time of the program left alone for {:.0f} s (aim: 5 % of a core)\n",
               seconds);
    const std::string display = ":" + std::to_string(2000 + getpid() % 700);
    Child server({"Xvfb", display, "-screen", "0", "1440x900x24", "-nolisten", "tcp"}, "", folder);
    std::this_thread::sleep_for(std::chrono::seconds(1));
    if (!server.running()) {
        fmt::print("not measured: Xvfb is not here (Debian: xvfb)\n");
        return;
    }
    const std::string book = (folder / "a.book").string();
    struct Idle {
        const char* what;
        std::vector<std::string> words;
    };
    for (const Idle& idle : {Idle{"a recording open, at rest", {FOOTING_PROGRAM, "view", file.string()}},
                             Idle{"the lesson book open", {FOOTING_PROGRAM, "lesson", "--book", book}}}) {
        Child program(idle.words, display, folder);
        std::this_thread::sleep_for(
            std::chrono::duration<double>(std::min(seconds, 5.0)));  // until it has read and drawn
        if (!program.running()) {
            fmt::print("not measured: the window did not open\n");
            return;
        }
        const double before_s = program.processor_s();
        std::this_thread::sleep_for(std::chrono::duration<double>(seconds));
        fmt::print("{:<44}        | {:.2f} %\n", idle.what,
                   100.0 * (program.processor_s() - before_s) / seconds);
    }
}

}  // namespace

int main(int argc, char** argv) {
    int frames = 600;
    double seconds = 60.0;
    double minutes = 60.0;
    std::size_t swings = 10'000;
    for (int i = 1; i + 1 < argc; i += 2) {
        const std::string_view word = argv[i];
        if (word == "--frames") frames = std::atoi(argv[i + 1]);
        if (word == "--seconds") seconds = std::atof(argv[i + 1]);
        if (word == "--minutes") minutes = std::atof(argv[i + 1]);
        if (word == "--swings") swings = std::stoul(argv[i + 1]);
    }
    std::setvbuf(stdout, nullptr, _IOLBF, 0);  // each figure as soon as it is known
    char name[] = "/tmp/footing_window_bench_XXXXXX";
    if (mkdtemp(name) == nullptr) return 1;
    const std::filesystem::path folder = name;
    const bool is_short = minutes < 10.0;
    write_lesson(folder / "twenty.h5", is_short ? 3 : 20, 0.0);
    write_lesson(folder / "long.h5", 60, minutes);
    auto lesson = analyse_recording((folder / "twenty.h5").string(), {});
    if (!lesson) give_up(lesson.problem());
    const ViewState open = show_lesson(std::make_shared<const LessonResult>(std::move(lesson).value()));
    {
        auto screen = OffScreen::open(screen_size, open);
        if (!screen) {
            fmt::print("not measured: {}\n", sentence(screen.problem()));
            std::filesystem::remove_all(folder);
            return 0;
        }
        bench_frames(screen.value(), open, frames);
        fmt::print("\nP3 (aims: 1000 ms, 16.7 ms)\n");
        bench_long_list(screen.value(), swings, frames);
        bench_opening(screen.value(), folder / "long.h5", minutes);
        bench_live(screen.value(), folder, seconds);
    }
    bench_idle(folder / "twenty.h5", folder, std::min(seconds, 20.0));
    std::filesystem::remove_all(folder);
    return 0;
}
