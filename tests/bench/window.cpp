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
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <thread>
#include <utility>
#include <vector>

#include "acquisition/device/emulated_source.h"
#include "tests/bench/simulated_lesson.h"
#include "tests/bench/window_times.h"
#include "tests/support/window_screens.h"
#include "viewer/lesson/analyse_recording.h"

extern char** environ;

using namespace footing;
using namespace footing::bench;

namespace {

constexpr PixelSize screen_size{1440, 900};
constexpr double frame_s = 1.0 / 60.0;

/// A simulated lesson at 1 kHz with 8 cells, with so many swings, or as long as is said.
void write_lesson(const std::filesystem::path& path, std::size_t swings, double minutes) {
    EmulatedDeviceSettings settings;
    settings.swings = swings;
    if (const auto done = write_simulated_lesson(path, settings, minutes); !done) give_up(done.problem());
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
    bench::print_times(what, times.took_s);
    bench::print_times("    processor time of all threads", times.processor_s);
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

/// As much as can change at once: another swing each frame, and every px of it drawn anew.
void bench_whole_frames(OffScreen& screen, const ViewState& open, int frames) {
    const std::size_t swings = open.lesson->swings.size();
    const auto next_swing = [swings](ViewState state, int frame) {
        return carry_out(std::move(state), ChooseSwing{static_cast<std::size_t>(frame + 1) % swings});
    };
    print_times("another swing each frame", time_frames(screen, open, frames, next_swing));
    print_times("    and the screen drawn whole",
                time_frames(screen, open, frames, [&](ViewState state, int frame) {
                    screen.forget();
                    return next_swing(std::move(state), frame);
                }));
    print_times("all swings laid over each other, drawn whole",
                time_frames(screen, sample::all_compared(open), frames, [&](ViewState state, int) {
                    screen.forget();
                    return state;
                }));
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

/// A library of so many swings, one every eight seconds.
ViewState long_lesson(std::size_t swings) {
    LessonResult lesson = sample::lesson();
    const std::vector<Swing> eight = lesson.swings;
    for (std::size_t place = eight.size(); place < swings; ++place) {
        Swing swing = eight[place % eight.size()];
        const double later_s = 8.0 * static_cast<double>(place) - swing.from_s;
        swing.index = place + 1;
        swing.from_s += later_s;
        swing.to_s += later_s;
        for (const NamedEvent& named : named_events) {
            if (auto& event = swing.events.*named.member) event->time_s += later_s;
        }
        lesson.swings.push_back(std::move(swing));
    }
    lesson.duration_s = lesson.swings.back().to_s;
    return show_lesson(std::make_shared<const LessonResult>(std::move(lesson)));
}

void bench_long_list(OffScreen& screen, std::size_t swings, int frames) {
    print_times(fmt::format("a list of {} swings, scrolled", swings),
                time_frames(screen, long_lesson(swings), frames, [&](ViewState state, int frame) {
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
    fmt::print("{:<49} {:6} | least {:.0f}, most {:.0f} ms (aim: 1000 ms)\n",
               fmt::format("a lesson of {:g} minutes, file to picture", minutes), took_s.size(),
               1e3 * part_of(took_s, 0.0), 1e3 * part_of(took_s, 1.0));
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
        fmt::print("{:<49}        | {:.2f} %\n", idle.what,
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
        bench_whole_frames(screen.value(), open, frames);
        fmt::print("\nP3 (aims: 1000 ms, 16.7 ms)\n");
        bench_long_list(screen.value(), swings, frames);
        bench_opening(screen.value(), folder / "long.h5", minutes);
        bench_live(screen.value(), folder, seconds);
    }
    bench_idle(folder / "twenty.h5", folder, std::min(seconds, 20.0));
    std::filesystem::remove_all(folder);
    return 0;
}
