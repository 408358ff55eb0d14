#include "analysis/pressure/impossible_loads.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace footing {

namespace {

constexpr double impossible_n = 300.0;
constexpr double alike_n = 150.0;  ///< what a landing leaves between before and after is more
constexpr std::size_t longest_run = 3;

/// How many instants from `first` on are impossible by this column; 0 for none.
std::size_t run_at(const std::vector<double>& load_n, std::size_t first) {
    const double before_n = load_n[first - 1];
    if (!(std::abs(load_n[first] - before_n) > impossible_n)) return 0;
    for (std::size_t length = 1; length <= longest_run && first + length < load_n.size(); ++length) {
        const double after_n = load_n[first + length];
        if (!(std::abs(after_n - before_n) < alike_n)) continue;
        const double way = load_n[first] > before_n ? 1.0 : -1.0;
        const double line_n = 0.5 * (before_n + after_n);
        const bool all_off =
            std::all_of(load_n.begin() + static_cast<std::ptrdiff_t>(first),
                        load_n.begin() + static_cast<std::ptrdiff_t>(first + length),
                        [&](double value_n) { return way * (value_n - line_n) > impossible_n; });
        return all_off ? length : 0;
    }
    return 0;
}

void lay_line(std::vector<double>& column, std::size_t first, std::size_t length) {
    const double from = column[first - 1];
    const double to = column[first + length];
    for (std::size_t i = 0; i < length; ++i)
        column[first + i] = from + (to - from) * static_cast<double>(i + 1) / static_cast<double>(length + 1);
}

}  // namespace

std::size_t bridge_impossible_loads(LoadTrace& trace) {
    std::size_t bridged = 0;
    for (std::size_t i = 1; i + 1 < trace.total_n.size(); ++i) {
        std::size_t length = 0;
        for (const std::vector<double>* load_n : {&trace.left_n, &trace.right_n, &trace.total_n})
            length = std::max(length, run_at(*load_n, i));
        if (length == 0) continue;
        for (std::vector<double>* column :
             {&trace.total_n, &trace.left_n, &trace.right_n, &trace.cop_x_m, &trace.cop_y_m, &trace.left_x_m,
              &trace.left_y_m, &trace.right_x_m, &trace.right_y_m})
            lay_line(*column, i, length);
        std::fill_n(trace.bridged.begin() + static_cast<std::ptrdiff_t>(i), length, std::uint8_t{1});
        bridged += length;
        i += length;
    }
    return bridged;
}

}  // namespace footing
