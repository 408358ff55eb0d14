// Share, CoP and filters of an hour of 8 cells at 1 kHz against numpy and scipy doing the same work on the
// same numbers in the same run; CoP of 64 x 48 grids against a plain sum of the same memory.
//   loads_bench [--minutes M]
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
#include <string_view>
#include <vector>

#include "analysis/pressure/filter.h"
#include "analysis/pressure/lead_share.h"
#include "analysis/pressure/load_columns.h"
#include "analysis/pressure/load_reducer.h"
#include "analysis/pressure/mat_columns.h"

using namespace footing;

namespace {

constexpr int rounds = 5;
constexpr std::size_t cells = 8;
constexpr double rate_hz = 1000.0;
constexpr double cutoff_hz = 10.0;

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

PlateLayout two_plates() {
    PlateLayout layout;
    for (const double x_m : {-0.2, 0.2}) {
        Plate plate{x_m < 0.0 ? "left" : "right", {x_m, 0.0}, {}};
        for (const double along : {0.15, -0.15}) {
            for (const double across : {-0.1, 0.1}) plate.cells.push_back({across, along});
        }
        layout.plates.push_back(plate);
    }
    return layout;
}

void reduce_all(const std::vector<double>& force_n, LoadColumns& into, std::vector<double>& share) {
    LoadReducer(two_plates()).reduce_rows(force_n, 0, into);
    lead_share(into.left_n, into.right_n, Hand::right, share);
}

void against_numpy(double minutes) {
    const auto frames = static_cast<std::size_t>(minutes * 60.0 * rate_hz);
    std::vector<double> force_n(frames * cells);
    std::mt19937_64 random(1);
    std::normal_distribution<double> normal(90.0, 2.0);
    for (double& one : force_n) one = normal(random);

    const std::filesystem::path folder =
        std::filesystem::temp_directory_path() / fmt::format("footing_loads_bench_{}", getpid());
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "force.f64", std::ios::binary)
        .write(reinterpret_cast<const char*>(force_n.data()),
               static_cast<std::streamsize>(force_n.size() * sizeof(double)));

    const std::vector<Section> sections = butterworth_low_pass(2, cutoff_hz, rate_hz);
    LoadColumns columns;
    columns.resize(frames);
    std::vector<double> share(frames);
    double reduced_s = 1e9;
    double filtered_s = 1e9;
    for (int round = 0; round < rounds; ++round) {
        const double begin = now_s();
        reduce_all(force_n, columns, share);
        const double middle = now_s();
        for (std::vector<double>* column : {&share, &columns.total_n, &columns.cop_x_m, &columns.cop_y_m})
            zero_lag_filter(sections, *column);
        filtered_s = std::min(filtered_s, now_s() - middle);
        reduced_s = std::min(reduced_s, middle - begin);
    }
    std::ofstream(folder / "ours.f64", std::ios::binary)
        .write(reinterpret_cast<const char*>(share.data()),
               static_cast<std::streamsize>(frames * sizeof(double)));
    std::string x;
    std::string y;
    for (const Plate& plate : two_plates().plates) {
        for (std::size_t i = 0; i < plate.cells.size(); ++i) {
            x += fmt::format("{},", cell_position(plate, i).x_m);
            y += fmt::format("{},", cell_position(plate, i).y_m);
        }
    }
    std::ofstream(folder / "rival.py") << fmt::format(
        "import time, numpy as np, scipy.signal as s\n"
        "f = np.fromfile('{0}/force.f64').reshape(-1, {1})\n"
        "x = np.array([{2}]); y = np.array([{3}])\n"
        "sos = s.butter(2, {4}, fs={5}, output='sos')\n"
        "reduced = filtered = 1e9\n"
        "for i in range({6}):\n"
        "    t = time.perf_counter()\n"
        "    left = f[:, :4].sum(axis=1); right = f[:, 4:].sum(axis=1); total = left + right\n"
        "    share = np.clip(left / total, 0, 1)\n"
        "    cop = f @ x / total, f @ y / total\n"
        "    feet = f[:, :4] @ x[:4] / left, f[:, :4] @ y[:4] / left, f[:, 4:] @ x[4:] / right, f[:, 4:] @ "
        "y[4:] / right\n"
        "    m = time.perf_counter()\n"
        "    smooth = [s.sosfiltfilt(sos, one) for one in (share, total, *cop)]\n"
        "    filtered = min(filtered, time.perf_counter() - m); reduced = min(reduced, m - t)\n"
        "print(reduced, filtered, np.abs(smooth[0] - np.fromfile('{0}/ours.f64')).max())\n",
        folder.string(), cells, x, y, cutoff_hz, rate_hz, rounds);
    FILE* pipe = popen(("/usr/bin/python3 " + (folder / "rival.py").string() + " 2>/dev/null").c_str(), "r");
    double their_reduced_s = 0.0;
    double their_filtered_s = 0.0;
    double worst = 0.0;
    const bool has_scipy =
        pipe != nullptr && std::fscanf(pipe, "%lf %lf %lf", &their_reduced_s, &their_filtered_s, &worst) == 3;
    if (pipe != nullptr) pclose(pipe);
    std::filesystem::remove_all(folder);
    fmt::print("8 cells, {} frames ({:g} min at 1 kHz), best of {}\n", frames, minutes, rounds);
    if (!has_scipy) {
        fmt::print(
            "loads, share, CoP {:.4f} s, filters {:.4f} s; python3-scipy is not installed, nothing to "
            "compare with\n",
            reduced_s, filtered_s);
        return;
    }
    const auto line = [](const char* what, double ours_s, double theirs_s) {
        fmt::print("{:<28} footing {:.4f} s, numpy/scipy {:.4f} s, ratio {:.1f}\n", what, ours_s, theirs_s,
                   theirs_s / ours_s);
    };
    line("loads, share, CoP of 3", reduced_s, their_reduced_s);
    line("zero-lag filter, 4 columns", filtered_s, their_filtered_s);
    line("all", reduced_s + filtered_s, their_reduced_s + their_filtered_s);
    fmt::print("largest difference of the filtered share {:.1e}\n", worst);
}

/// Eight sums side by side, so that none waits for itself: as fast as memory comes.
double plain_sum(const std::vector<double>& values) {
    double sums[8]{};
    for (std::size_t i = 0; i + 8 <= values.size(); i += 8) {
        for (std::size_t k = 0; k < 8; ++k) sums[k] += values[i + k];
    }
    double sum = 0.0;
    for (const double one : sums) sum += one;
    return sum;
}

void against_memory(double minutes) {
    const Grid grid{48, 64, 0.01, 0.01, {}};
    const std::size_t elements = std::size_t{grid.rows} * grid.columns;
    const std::size_t frames = minutes >= 10.0 ? 20000 : 500;
    std::vector<double> force_n(frames * elements);
    for (std::size_t i = 0; i < force_n.size(); ++i)
        force_n[i] = static_cast<double>((i * 7919) % 101) * 0.01;
    double sum_s = 1e9;
    double cop_s = 1e9;
    double checked = 0.0;
    double x_m = 0.0;
    for (int round = 0; round < rounds; ++round) {
        double begin = now_s();
        checked += plain_sum(force_n);
        sum_s = std::min(sum_s, now_s() - begin);
        MatColumns columns(grid);
        begin = now_s();
        for (std::size_t i = 0; i < frames; ++i) {
            checked -= columns.add_up(std::span(force_n).subspan(i * elements, elements), 0.0);
            const LoadSum sum = columns.between(0, grid.columns);
            x_m += sum.x_n_m / sum.force_n;
        }
        cop_s = std::min(cop_s, now_s() - begin);
    }
    const double gigabytes = static_cast<double>(force_n.size() * sizeof(double)) * 1e-9;
    fmt::print("CoP of 64 x 48 grids, float64, {} frames ({:.2f} GB), best of {}\n", frames, gigabytes,
               rounds);
    fmt::print(
        "plain sum {:.1f} GB/s, CoP {:.1f} GB/s, ratio {:.2f} (sums differ by {:.0e}, mean x {:.1e} m)\n",
        gigabytes / sum_s, gigabytes / cop_s, sum_s / cop_s, std::abs(checked), x_m);
}

}  // namespace

int main(int argc, char** argv) {
    double minutes = 60.0;
    for (int i = 1; i + 1 < argc; i += 2) {
        if (std::string_view(argv[i]) == "--minutes") minutes = std::atof(argv[i + 1]);
    }
    against_numpy(minutes);
    against_memory(minutes);
    return 0;
}
