// Times the analysis of a long lesson, from the file to the swings, and says what memory it took.
//   analysis_bench [--minutes M] [--on plates|mat] [--keep FILE.h5]
// The lesson is a simulated one, repeated until it is long enough: 8 cells at 1 kHz, or a mat of 48 x 48
// elements at 200 Hz.

#include <fmt/format.h>
#include <sys/resource.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

#include "tests/bench/simulated_lesson.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/read_loads.h"

using namespace footing;

namespace {

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// Since the last forget_peak(), as the kernel counts it.
double peak_memory_mb() {
    std::ifstream status("/proc/self/status");
    std::string word;
    while (status >> word) {
        if (word != "VmHWM:") continue;
        double kilobytes = 0.0;
        status >> kilobytes;
        return kilobytes / 1024.0;
    }
    return 0.0;
}

void forget_peak() {
    std::ofstream("/proc/self/clear_refs") << "5";
}

double processor_s() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

[[noreturn]] void give_up(const Problem& problem) {
    fmt::print(stderr, "analysis_bench: {}\n", sentence(problem));
    std::exit(1);
}

void write_lesson(const std::filesystem::path& path, double minutes, FrameKind kind) {
    EmulatedDeviceSettings settings;
    settings.kind = kind;
    if (kind == FrameKind::grid) settings.rate_hz = 200.0;
    settings.swings = 60;
    if (const auto done = bench::write_simulated_lesson(path, settings, minutes); !done)
        give_up(done.problem());
}

}  // namespace

int main(int argc, char** argv) {
    double minutes = 60.0;
    std::filesystem::path path = std::filesystem::temp_directory_path() / "footing_analysis_bench.h5";
    bool keep = false;
    FrameKind kind = FrameKind::cells;
    for (int i = 1; i + 1 < argc; i += 2) {
        const std::string_view word = argv[i];
        if (word == "--minutes") minutes = std::atof(argv[i + 1]);
        if (word == "--on")
            kind = std::string_view(argv[i + 1]) == "mat" ? FrameKind::grid : FrameKind::cells;
        if (word == "--keep") {
            path = argv[i + 1];
            keep = true;
        }
    }
    if (!keep || !std::filesystem::exists(path)) {
        std::filesystem::remove(path);
        write_lesson(path, minutes, kind);
    }

    const auto read_start = std::chrono::steady_clock::now();
    const double read_processor_s = processor_s();
    {
        const auto loads = read_loads(path.string());
        if (!loads) give_up(loads.problem());
    }
    const double read_s = seconds_since(read_start);
    const double read_used_s = processor_s() - read_processor_s;

    forget_peak();
    const auto start = std::chrono::steady_clock::now();
    const double all_processor_s = processor_s();
    const auto result = analyse_recording(path.string(), {});
    if (!result) give_up(result.problem());
    const double all_s = seconds_since(start);
    fmt::print("lesson of {:.1f} min at {:.0f} Hz on {}, {} swings found, {:.0f} MB on the disk\n",
               result.value().duration_s / 60.0, result.value().rate_hz,
               kind == FrameKind::grid ? "a mat of 48 x 48" : "8 cells", result.value().swings.size(),
               static_cast<double>(std::filesystem::file_size(path)) / 1e6);
    fmt::print("read, newtons, loads and CoP   {:7.3f} s ({:.3f} s of processor time)\n", read_s,
               read_used_s);
    fmt::print("whole analysis from the file   {:7.3f} s ({:.3f} s of processor time)\n", all_s,
               processor_s() - all_processor_s);
    fmt::print("peak memory                    {:7.0f} MB\n", peak_memory_mb());
    if (!keep) std::filesystem::remove(path);
    return 0;
}
