#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "acquisition/frame/problem.h"
#include "viewer/window/off_screen.h"

/// What the parts of the window's benchmark share.
namespace footing::bench {

using Steady = std::chrono::steady_clock;

inline double seconds_since(Steady::time_point start) {
    return std::chrono::duration<double>(Steady::now() - start).count();
}

[[noreturn]] inline void give_up(const Problem& problem) {
    fmt::print(stderr, "window_bench: {}\n", sentence(problem));
    std::exit(1);
}

inline double part_of(std::vector<double> values, double part) {
    if (values.empty()) return 0.0;
    std::ranges::sort(values);
    return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1) + 0.5)];
}

inline void print_times(const std::string& what, const std::vector<double>& seconds) {
    fmt::print("{:<49} {:6} | p50 {:6.1f}  p95 {:6.1f}  p99 {:6.1f}  most {:6.1f} ms\n", what, seconds.size(),
               1e3 * part_of(seconds, 0.5), 1e3 * part_of(seconds, 0.95), 1e3 * part_of(seconds, 0.99),
               1e3 * part_of(seconds, 1.0));
}

/// P2: a lesson under way for so long.
void bench_live(OffScreen& screen, const std::filesystem::path& folder, double seconds);

}  // namespace footing::bench
