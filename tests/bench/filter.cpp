// Zero-lag Butterworth of an hour at 1 kHz against scipy.signal.sosfiltfilt on the same samples, in the same
// run.
#include "analysis/pressure/filter.h"

#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

namespace {

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

std::vector<double> read_doubles(const std::filesystem::path& path, std::size_t count) {
    std::vector<double> values(count);
    std::ifstream in(path, std::ios::binary);
    in.read(reinterpret_cast<char*>(values.data()), static_cast<std::streamsize>(count * sizeof(double)));
    return values;
}

}  // namespace

int main() {
    constexpr std::size_t count = 3'600'000;
    constexpr int rounds = 5;
    std::vector<double> samples(count);
    std::mt19937_64 random(1);
    std::normal_distribution<double> normal;
    double level = 700.0;
    for (double& sample : samples) sample = (level = 0.999 * level + 0.7 + normal(random));

    const std::filesystem::path folder =
        std::filesystem::temp_directory_path() / fmt::format("footing_filter_bench_{}", getpid());
    std::filesystem::create_directories(folder);
    const std::filesystem::path in = folder / "in.f64";
    const std::filesystem::path out = folder / "out.f64";
    std::ofstream(in, std::ios::binary)
        .write(reinterpret_cast<const char*>(samples.data()),
               static_cast<std::streamsize>(count * sizeof(double)));

    fmt::print("zero-lag Butterworth, {} samples (60 min at 1 kHz), cut-off 10 Hz, best of {}\n", count,
               rounds);
    for (const int order : {2, 4}) {
        const std::vector<footing::Section> sections = footing::butterworth_low_pass(order, 10.0, 1000.0);
        double ours_s = 1e9;
        std::vector<double> column;
        for (int round = 0; round < rounds; ++round) {
            column = samples;
            const double begin = now_s();
            footing::zero_lag_filter(sections, column);
            ours_s = std::min(ours_s, now_s() - begin);
        }
        const std::string script = fmt::format(
            "import time, numpy as np, scipy.signal as s\n"
            "x = np.fromfile('{}')\n"
            "sos = s.butter({}, 10, fs=1000, output='sos')\n"
            "best = 1e9\n"
            "for i in range({}):\n"
            "    t = time.perf_counter(); y = s.sosfiltfilt(sos, x); best = min(best, time.perf_counter() - "
            "t)\n"
            "y.tofile('{}')\n"
            "print(best)\n",
            in.string(), order, rounds, out.string());
        FILE* pipe = popen(("/usr/bin/python3 -c \"" + script + "\" 2>/dev/null").c_str(), "r");
        double scipy_s = 0.0;
        const bool has_scipy = pipe != nullptr && std::fscanf(pipe, "%lf", &scipy_s) == 1;
        if (pipe != nullptr) pclose(pipe);
        if (!has_scipy) {
            fmt::print("order {}: {:.4f} s; python3-scipy is not installed, nothing to compare with\n", order,
                       ours_s);
            continue;
        }
        const std::vector<double> theirs = read_doubles(out, count);
        double worst = 0.0;
        for (std::size_t i = 0; i < count; ++i) worst = std::max(worst, std::abs(theirs[i] - column[i]));
        fmt::print("order {}: footing {:.4f} s, scipy {:.4f} s, ratio {:.2f}, largest difference {:.1e}\n",
                   order, ours_s, scipy_s, scipy_s / ours_s, worst);
    }
    std::filesystem::remove_all(folder);
    return 0;
}
