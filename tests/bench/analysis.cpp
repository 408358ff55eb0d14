// Times the analysis of a long lesson, from the file to the swings, and says what memory it took.
//   analysis_bench [--minutes M] [--keep FILE.h5]
// The lesson is a simulated one, repeated until it is long enough: 1 kHz x 8 cells.

#include <fmt/format.h>
#include <sys/resource.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <string_view>

#include "acquisition/device/emulated_device.h"
#include "acquisition/record/recording_writer.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/read_loads.h"

using namespace footing;

namespace {

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double peak_memory_mb() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

[[noreturn]] void give_up(const Problem& problem) {
    fmt::print(stderr, "analysis_bench: {}\n", sentence(problem));
    std::exit(1);
}

void write_lesson(const std::filesystem::path& path, double minutes) {
    EmulatedDeviceSettings settings;
    settings.swings = 60;
    RecordingInfo info;
    info.zone = "UTC";
    info.origin = "simulated golfer";
    info.device = EmulatedDevice(settings).description();
    auto writer = RecordingWriter::create(path, info);
    if (!writer) give_up(writer.problem());
    const auto wanted = static_cast<std::uint64_t>(minutes * 60.0 * settings.rate_hz);
    std::uint64_t written = 0;
    while (written < wanted) {
        EmulatedDevice device(settings);
        std::uint64_t step = 0;
        while (auto frame = device.next()) {
            FrameView later = *frame;
            later.stamp.counter = written;
            later.stamp.device_time_us = written * static_cast<std::uint64_t>(1e6 / settings.rate_hz);
            if (const auto done = writer.value().append(later); !done) give_up(done.problem());
            ++written;
            if (++step && written >= wanted) break;
        }
        ++settings.seed;
    }
    info.losses.frames = written;
    if (const auto done = writer.value().close(info); !done) give_up(done.problem());
}

}  // namespace

int main(int argc, char** argv) {
    double minutes = 60.0;
    std::filesystem::path path = std::filesystem::temp_directory_path() / "footing_analysis_bench.h5";
    bool keep = false;
    for (int i = 1; i + 1 < argc; i += 2) {
        const std::string_view word = argv[i];
        if (word == "--minutes") minutes = std::atof(argv[i + 1]);
        if (word == "--keep") {
            path = argv[i + 1];
            keep = true;
        }
    }
    if (!keep || !std::filesystem::exists(path)) {
        std::filesystem::remove(path);
        write_lesson(path, minutes);
    }
    const double before_mb = peak_memory_mb();

    const auto read_start = std::chrono::steady_clock::now();
    const auto loads = read_loads(path.string());
    if (!loads) give_up(loads.problem());
    const double read_s = seconds_since(read_start);

    const auto start = std::chrono::steady_clock::now();
    const auto result = analyse_recording(path.string(), {});
    if (!result) give_up(result.problem());
    const double all_s = seconds_since(start);
    fmt::print("lesson of {:.1f} min at {:.0f} Hz x 8 cells, {} swings found\n", result.value().duration_s / 60.0,
               result.value().rate_hz, result.value().swings.size());
    fmt::print("read, newtons, loads and CoP   {:7.3f} s\n", read_s);
    fmt::print("whole analysis from the file   {:7.3f} s\n", all_s);
    fmt::print("peak memory                    {:7.0f} MB (before: {:.0f} MB)\n", peak_memory_mb(), before_mb);
    if (!keep) std::filesystem::remove(path);
    return 0;
}
